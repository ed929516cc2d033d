import { partTestPoint, pinName, pinTestPoint } from "../../judge/test-point";
import { headingWords } from "../../knowledge/heading-match";
import type { ColumnRole } from "../../knowledge/types";
import type { LogTable, Section } from "../../log/model";
import { isEmptyWord } from "../../quantity/words";
import { type Span, slice } from "../../text/span";
import { aheadOfOwnSection } from "../shared/diagnosis/own-section";
import { tableLines } from "../shared/table-layout";
import { openAtEnd } from "../shared/tables/open-end";
import type { Refactor } from "../types";
import type { LogView } from "../view";
import { type TableAt, tableAt, typed } from "./table-at";

/** What a row is of stays; what was found there is to be found again. */
const KEPT: ReadonlySet<ColumnRole> = new Set([
  "ref",
  "pin",
  "rail",
  "signal",
  "row",
  "column",
  "cell",
  "switch",
  "expected",
  "unit",
]);
const MEASURED: ReadonlySet<ColumnRole> = new Set(["reading", "state", "result"]);

/** The same places under a heading of their own behind the section, nothing measured there yet. */
export function copyAfterRepair(view: LogView, selected: Span): readonly Refactor[] {
  const at = tableAt(view, selected);
  if (!at) return [];
  const { table } = at;
  const { section, columns, shape, kind } = table;
  const { heading, qualifiers } = section;
  if (!heading || qualifiers.repair === "after" || table.source.rows.length === 0) return [];
  const roles = columns.map(({ spec }) => spec?.role);
  const placed =
    shape === "wide" ||
    roles.some((role) => role && role !== "expected" && role !== "unit" && KEPT.has(role));
  const measured = shape === "wide" || roles.some((role) => role && MEASURED.has(role));
  if (!placed || !measured || kind.holds === "settings" || takenAgain(view, table)) return [];
  const last = view.doc.blocks.at(-1);
  const title = headingAfter(slice(at.block.source.text, heading.contentSpan));
  const { end, text } = endOfSection(view, at, section);
  if (last && end === view.doc.text.length && openAtEnd(last.block.source)) return [];
  const gap = /(?:^|\n)\r?\n$/.test(text) ? "" : text.endsWith("\n") ? at.eol : at.eol + at.eol;
  const lines = [`${"#".repeat(heading.depth)} ${title}`, "", ...emptied(view, at)];
  const newText = `${gap}${lines.join(at.eol)}${at.eol}${end === view.doc.text.length ? "" : at.eol}`;
  return [
    {
      title: `Copy as an empty table under "${title}"`,
      kind: "insert",
      edits: [{ span: { start: end, end }, newText }],
    },
  ];
}

/** "Diode check before repair" becomes "Diode check after repair"; "Supply rails, loaded" keeps its list of words. */
function headingAfter(text: string): string {
  const plain = text.trim();
  const replaced = plain.replace(
    /\bbefore( the)? repair\b/i,
    (found, the: string | undefined) => `${found.startsWith("B") ? "After" : "after"}${the ?? ""} repair`,
  );
  if (replaced !== plain) return replaced;
  return `${plain}${plain.includes(",") ? "," : ""} after repair`;
}

/** True where every reading of the table has one at the same place after the repair. */
function takenAgain({ doc }: LogView, table: LogTable): boolean {
  const key = ({ subject }: { readonly subject: LogTable["readings"][number]["subject"] }): string =>
    [...KEPT].map((role) => headingWords(subject[role]?.text ?? "").join(" ")).join("|");
  const later = new Set<string>();
  for (const { block } of doc.blocks) {
    for (const other of block.tables) {
      if (other.procedure.id !== table.procedure.id || other.section.qualifiers.repair !== "after") continue;
      for (const reading of other.readings) later.add(key(reading));
    }
  }
  return later.size > 0 && table.readings.every((reading) => later.has(key(reading)));
}

/** Before the next heading that is not below the section's own, in whichever block it stands, and before the list of suspects. */
function endOfSection({ doc }: LogView, at: TableAt, { heading }: Section): { end: number; text: string } {
  const from = at.lines.at(-1)?.end ?? 0;
  for (const { start, block } of doc.blocks) {
    for (const next of block.sections) {
      const own = next.heading;
      if (!own || start + own.span.start < from || own.depth > (heading?.depth ?? 1)) continue;
      const end = aheadOfOwnSection(doc, start + own.span.start);
      return { end, text: doc.text.slice(0, end) };
    }
  }
  return { end: doc.text.length, text: doc.text };
}

function emptied(view: LogView, at: TableAt): string[] {
  const { table } = at;
  const { columns, shape, source } = table;
  const style = source.delimiter.cells.map(({ align }) => ({ align, numeric: false }));
  const rows = source.rows.map(({ cells }, r) =>
    columns.map(({ header, spec }, c) => {
      const text = typed(at, cells[c]);
      if (shape === "wide" && c === 0) return text;
      if (shape === "wide" && !spec)
        return isEmptyWord(text) && !hasPin(view, table, r, header.text) ? text : "";
      return spec && KEPT.has(spec.role) ? text : "";
    }),
  );
  return tableLines({
    header: source.header.cells.map((cell) => typed(at, cell)),
    rows,
    columns: style,
    spaced: at.spaced,
  });
}

/** False for a pin that the part over the column has not, and for a crossing of a matrix: a dash there stays. */
function hasPin({ ctx }: LogView, table: LogTable, row: number, header: string): boolean {
  const pin = table.rows[row]?.cells.pin;
  if (!pin) return false;
  const part = partTestPoint(/^\w+/.exec(header)?.[0] ?? header, ctx.board?.value, ctx.library);
  const number = pinName(pinTestPoint(part, pin.text, ctx.board?.value));
  return part.device !== undefined && number !== undefined && part.device.pins.has(number);
}
