// The table a selection lies in, and its cells as they are typed.
import { defined } from "../../base/defined";
import type { Library } from "../../knowledge/library";
import type { Procedure } from "../../knowledge/types";
import type { LogBlock, LogTable, Section } from "../../log/model";
import { readTable } from "../../log/read-table";
import { linesOf } from "../../syntax/rows";
import { type Cell, type Row, tableOf } from "../../syntax/tables";
import { type Span, shift, slice } from "../../text/span";
import { isSpaced, wholeLine } from "../format/source";
import type { LogView } from "../view";

export interface TableAt {
  /** Offset of the block in the document. */
  readonly start: number;
  readonly block: LogBlock;
  readonly table: LogTable;
  /** Whole lines of the header, the delimiter row and the rows; of the document. */
  readonly lines: readonly Span[];
  /** The row the selection begins in, from 0; undefined in the header and the line below it. */
  readonly row?: number;
  /** The column the selection begins in; undefined at a row's end. */
  readonly column?: number;
  /** What stands before the header on its line. */
  readonly indent: string;
  /** The delimiter row is typed `| --- |`. */
  readonly spaced: boolean;
  readonly eol: string;
}

/** Undefined outside tables, and where the selection reaches beyond one. */
export function tableAt({ doc }: LogView, selected: Span): TableAt | undefined {
  for (const { start, block } of doc.blocks) {
    if (start > selected.start) break;
    for (const table of block.tables) {
      const found = read(doc.text, start, block, table, selected);
      if (found) return found;
    }
  }
  return undefined;
}

function read(
  text: string,
  start: number,
  block: LogBlock,
  table: LogTable,
  selected: Span,
): TableAt | undefined {
  const { header, delimiter, rows } = table.source;
  const at = shift(table.span, start);
  if (selected.end < lineStart(text, at.start) || selected.start > lineEnd(text, at.end)) return undefined;
  const lines: Span[] = [];
  for (const { span } of [header, delimiter, ...rows]) {
    const line = wholeLine(text, shift(span, start));
    if (!line) return undefined;
    lines.push(line);
  }
  const [first] = lines;
  const last = lines.at(-1);
  if (!first || !last || selected.start < first.start || selected.end > last.end) return undefined;
  const line = lines.findIndex(({ end }) => selected.start <= end);
  const source = line === 0 ? header : rows[line - 2];
  const column = source?.cells.findIndex(
    ({ outer }) => selected.start - start >= outer.start && selected.start - start <= outer.end,
  );
  return defined({
    start,
    block,
    table,
    lines,
    row: line >= 2 ? line - 2 : undefined,
    column: column !== undefined && column >= 0 ? column : undefined,
    indent: text.slice(first.start, start + header.span.start),
    spaced: isSpaced(block.source.text, table.source),
    eol: text.includes("\r\n") ? "\r\n" : "\n",
  });
}

const lineStart = (text: string, at: number): number => text.lastIndexOf("\n", at - 1) + 1;

function lineEnd(text: string, at: number): number {
  const end = text.slice(at).search(/[\r\n]/);
  return end < 0 ? text.length : at + end;
}

/** A cell as it is typed; empty for one that is not there. */
export const typed = ({ block }: TableAt, cell: Cell | undefined): string =>
  cell ? slice(block.source.text, cell.span) : "";

export const typedRow = (at: TableAt, { cells }: Row): string[] => cells.map((cell) => typed(at, cell));

/** The table that lines would make under the same heading. */
export function reread(
  lines: readonly string[],
  section: Section,
  procedure: Procedure,
  library: Library,
): LogTable | undefined {
  const text = lines.join("\n");
  const source = tableOf(text, linesOf(text, { start: 0, end: text.length }));
  return source && readTable({ table: source, section, procedure }, library);
}

/** The whole table put again, its header's indentation kept. */
export function replaceTable({ lines, indent, eol }: TableAt, made: readonly string[]) {
  const span = { start: lines[0]?.start ?? 0, end: lines.at(-1)?.end ?? 0 };
  return { span, newText: made.map((line) => indent + line).join(eol) };
}
