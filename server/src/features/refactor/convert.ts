// A table of readings turned from one shape into the other: a row for each reading, or a column for each part. What a
// shape cannot hold is said, and the table then left alone; what was made is read back before it is offered.
import { memoBy } from "../../base/memo";
import type { Library } from "../../knowledge/library";
import type { ColumnRole } from "../../knowledge/types";
import type { LogTable } from "../../log/model";
import type { TextEdit } from "../../text/edits";
import type { Span } from "../../text/span";
import type { Refactor } from "../types";
import type { LogView } from "../view";
import { wordFor } from "./convert-words";
import { replaceTable, reread, type TableAt, tableAt } from "./table-at";
import { toLong } from "./to-long";
import { toWide } from "./to-wide";

type Offer = { readonly title: string } & (
  | { readonly edit: TextEdit; readonly reason?: undefined }
  | { readonly reason: string }
);

/** By table, with the text it stands in: a cursor that walks through it costs nothing. */
const conversions = memoBy<LogTable, Offer | undefined>();

export function convertTable(view: LogView, selected: Span): readonly Refactor[] {
  const at = tableAt(view, selected);
  if (!at) return [];
  const offer = conversions(at.table, () => convert(at, view.ctx.library), view.doc.text, at.start);
  if (!offer) return [];
  const { title } = offer;
  return offer.reason === undefined
    ? [{ title, kind: "rewrite", edits: [offer.edit] }]
    : [{ title, kind: "rewrite", edits: [], disabled: offer.reason }];
}

function convert(at: TableAt, library: Library): Offer | undefined {
  const { table } = at;
  const { procedure, section } = table;
  const wide = procedure.wide;
  if (!wide || table.source.rows.length === 0) return undefined;
  const made = table.shape === "long" ? toWide(at, wide) : toLong(at, wide);
  if (!made) return undefined;
  const title =
    table.shape === "long"
      ? `Convert to a wide table, one column for each ${wordFor(wide.columns)}`
      : "Convert to a long table, one row for each reading";
  if (!made.ok) return { title, reason: made.reason };
  const again = reread(made.lines, section, procedure, library);
  if (!again || again.shape === table.shape || meaning(again) !== meaning(table)) {
    return {
      title,
      reason: "The other shape would be read differently: a header or a cell would get another meaning.",
    };
  }
  return { title, edit: replaceTable(at, made.lines) };
}

/** What is read from a table, in an order of its own; cells in which nothing was measured leave no trace. */
function meaning({ readings, procedure: { wide } }: LogTable): string {
  return readings
    .filter(({ value }) => value.kind !== "empty")
    .map(({ subject, measure, value }) => {
      const of = (role: ColumnRole | undefined) => (role && subject[role]?.text) ?? "";
      return JSON.stringify([of(wide?.columns), of(wide?.rows), measure, value]);
    })
    .sort()
    .join("\n");
}
