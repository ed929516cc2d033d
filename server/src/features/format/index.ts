// The columns of a log's tables put in line. Every table at root level is aligned, under whatever heading it stands; one
// in a list or a quote, and what Mendlog itself has written between two comments, is left as it is. Nothing but padding,
// pipes at a row's ends and the dashes below a header is ever changed.
import { memo } from "../../base/memo";
import type { LogBlock, LogTable } from "../../log/model";
import { partsSpans } from "../../log/parts-section";
import { wideSpec } from "../../log/read-table";
import type { Row, Table } from "../../syntax/tables";
import { editBetween, type TextEdit } from "../../text/edits";
import { type Span, shift, slice } from "../../text/span";
import { type ColumnStyle, tableLines } from "../shared/table-layout";
import { looksNumeric } from "../shared/typed-number";
import type { LogView } from "../view";
import { isSpaced, wholeLine } from "./source";

interface FormattedTable {
  /** Whole lines; of the block, like the edits. */
  readonly span: Span;
  readonly edits: readonly TextEdit[];
}

/**
 * The edits that align the tables of a log: one for each line that changes, in order.
 * @param within only tables that touch it; the whole of them, because one row alone is in line with nothing
 */
export function formatTables({ doc }: LogView, within?: Span): TextEdit[] {
  return doc.blocks.flatMap(({ start, block }) => {
    if (within && (start > within.end || start + block.source.text.length < within.start)) return [];
    return tablesOf(block)
      .filter(({ span }) => !within || (start + span.start <= within.end && start + span.end >= within.start))
      .flatMap(({ edits }) => edits.map((edit) => ({ ...edit, span: shift(edit.span, start) })));
  });
}

/** Kept with the block: a keystroke costs the one it is in. */
const tablesOf = memo((block: LogBlock): readonly FormattedTable[] => {
  const { text, tables } = block.source;
  const written = partsSpans(block.comments).pairs;
  return tables
    .filter(
      ({ span }) =>
        !written.some(({ begin, end }) => span.start >= begin.span.end && span.start < end.span.start),
    )
    .flatMap((source) => {
      const known = block.tables.find((table) => table.source === source);
      return formatTable(text, source, known) ?? [];
    });
});

/** Undefined where something else than the table's own rows stands on its lines. */
function formatTable(text: string, source: Table, known: LogTable | undefined): FormattedTable | undefined {
  const lines: Span[] = [];
  for (const { span } of [source.header, source.delimiter, ...source.rows]) {
    const line = wholeLine(text, span);
    if (!line) return undefined;
    lines.push(line);
  }
  const [first] = lines;
  if (!first) return undefined;
  const indent = text.slice(first.start, source.header.span.start);
  const cellsOf = ({ cells }: Row): string[] => cells.map(({ span }) => slice(text, span));
  const rows = source.rows.map(cellsOf);
  const made = tableLines({
    header: cellsOf(source.header),
    rows,
    columns: columnStyles(source, rows, known),
    spaced: isSpaced(text, source),
  });
  const edits = made.flatMap((line, i): TextEdit[] => {
    const at = lines[i];
    const before = at && slice(text, at);
    if (!at || before === undefined) return [];
    const edit = editBetween(before, indent + line);
    return edit ? [{ ...edit, span: shift(edit.span, at.start) }] : [];
  });
  return { span: { start: first.start, end: lines.at(-1)?.end ?? first.end }, edits };
}

/** Figures are lined up by their point; names, such as those of pins, are not, whatever they are made of. */
function columnStyles(
  source: Table,
  rows: readonly (readonly string[])[],
  known: LogTable | undefined,
): ColumnStyle[] {
  const cells = known?.shape === "wide" ? wideSpec(known.procedure) : undefined;
  return source.delimiter.cells.map(({ align }, i) => {
    const spec = known?.columns[i]?.spec ?? (i > 0 ? cells : undefined);
    const numeric = spec
      ? spec.role === "reading" || (spec.role === "expected" && spec.quantity !== undefined)
      : !(known?.shape === "wide" && i === 0) && looksNumeric(rows.map((row) => row[i] ?? ""));
    return { align, numeric };
  });
}
