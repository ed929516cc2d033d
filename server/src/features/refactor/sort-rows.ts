import type { Span } from "../../text/span";
import { byRef } from "../shared/describe";
import type { Refactor } from "../types";
import type { LogView } from "../view";
import { tableAt } from "./table-at";

/**
 * Rows by part and pin, each line moved as it is typed. Not where a row takes its part from the one above it, nor where
 * a row has no place in that order.
 */
export function sortRows(view: LogView, selected: Span): readonly Refactor[] {
  const at = tableAt(view, selected);
  if (!at) return [];
  const { table, lines, eol } = at;
  const { columns, source } = table;
  const refAt = columns.findIndex(({ spec }) => spec?.role === "ref");
  const pinAt = columns.findIndex(({ spec }) => spec?.role === "pin");
  if (pinAt < 0 || source.rows.length < 2) return [];
  const wide = table.shape === "wide";
  const keys = source.rows.map(({ cells }) => ({
    ref: wide || refAt < 0 ? "" : (cells[refAt]?.text ?? ""),
    pin: cells[pinAt]?.text ?? "",
  }));
  if (keys.some(({ ref, pin }) => pin === "" || (!wide && refAt >= 0 && ref === ""))) return [];
  const order = keys
    .map((key, i) => ({ ...key, i }))
    .sort((a, b) => byRef(a.ref, b.ref) || byRef(a.pin, b.pin) || a.i - b.i);
  if (order.every(({ i }, place) => i === place)) return [];
  const rows = lines.slice(2);
  const span = { start: rows[0]?.start ?? 0, end: rows.at(-1)?.end ?? 0 };
  const newText = order.map(({ i }) => view.doc.text.slice(rows[i]?.start ?? 0, rows[i]?.end ?? 0)).join(eol);
  const title = wide || refAt < 0 ? "Sort the rows by pin" : "Sort the rows by part and pin";
  return [{ title, kind: "rewrite", edits: [{ span, newText }] }];
}
