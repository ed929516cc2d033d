// Table rows without any markup, and what stands in fences, taken out of a text before the parser sees it and put into its tree
// afterwards: of the parser's time for a log most would go into them, and the tree is the same to the last position.

import type { Code, Root, TableCell, TableRow } from "mdast";
import { closingLine, type Fence, fenceAt } from "./fences";

type Point = NonNullable<Root["position"]>["start"];

/** Lines taken out between two rows that stay. */
interface Gap {
  /** Where the line behind the gap begins in the shortened text. */
  readonly at: number;
  /** What was taken out of the whole text, from the start of a line to the start of another. */
  readonly from: number;
  readonly to: number;
  /** Number of lines taken out. */
  readonly lines: number;
  /** The fence that they stood in, with its place in the shortened text; absent for rows. */
  readonly fence?: Fence;
}

export interface Shortened {
  readonly text: string;
  readonly gaps: readonly Gap[];
}

/** A row as the parser reads it whatever stands around it: no inline mark, no escape, no address. */
const PLAIN = /^\|[^\0-\x1f\x7f*_`[\]<&\\~@]*\|$/;
const ADDRESS = /:\/\/|www/i;

/** An underscore within a word, as nets have in their names; an ampersand before a blank; "< 1" and "<0.5". */
const NO_MARK = /(?<=[A-Za-z0-9])_+(?=[A-Za-z0-9])|&(?= )|<(?=[ 0-9.])/g;

/** The line without those signs that are no marks where they stand: what is left of them may be. */
export const withoutNoMarks = (line: string): string => line.replace(NO_MARK, "-");

/** True for a line from pipe to pipe that the parser cuts at its pipes and otherwise leaves as it is. */
export const isPlainRow = (line: string): boolean =>
  (PLAIN.test(line) || PLAIN.test(withoutNoMarks(line))) && !ADDRESS.test(line);
const DELIMITER = /^\|[-:| ]*-[-:| ]*$/;

/**
 * The text without the rows and the code that can be put back; undefined where that is none, or too few to be worth it. The first and the
 * last row of each table stay, so that the parser finds the table's ends itself.
 * @param mostCode characters of code in one fence; what is longer stays
 */
export function withoutPlainRows(text: string, mostCode: number): Shortened | undefined {
  if (!/(?:^|\n)(?:\|| {0,3}(?:```|~~~))/.test(text) || /\r(?!\n)/.test(text)) return undefined;
  const gaps: Gap[] = [];
  let shortened = "";
  let kept = 0;
  let before = "";
  // 0 outside of a table, else the number of its body lines so far and one.
  let within = 0;
  let open: { readonly from: number; lines: number } | undefined;
  const close = (to: number): void => {
    if (!open) return;
    shortened += text.slice(kept, open.from);
    gaps.push({ at: shortened.length, from: open.from, to, lines: open.lines });
    kept = to;
    open = undefined;
  };
  for (let start = 0; start < text.length; ) {
    const newline = text.indexOf("\n", start);
    const next = newline < 0 ? text.length : newline + 1;
    const end = newline < 0 ? text.length : text[newline - 1] === "\r" ? newline - 1 : newline;
    const isRow = text[start] === "|";
    const code = isRow || text.length < LONG_CODE ? undefined : codeAt(text, start, next, mostCode);
    if (code) {
      close(start);
      const { fence, end: to, lines } = code;
      shortened += text.slice(kept, next);
      kept = to;
      const own = { ...fence, start: shortened.length - (next - fence.start) };
      gaps.push({ at: shortened.length, from: next, to, lines, fence: own });
      within = 0;
      before = "";
      // The line that closes it opens nothing.
      start = to === text.length ? to : text.indexOf("\n", to) + 1 || text.length;
      continue;
    }
    const line = isRow ? text.slice(start, Math.max(start, end)) : "";
    if (within > 0 && isRow) {
      const isInside = within > 1 && text[next] === "|";
      if (isInside && isPlainRow(line)) {
        open ??= { from: start, lines: 0 };
        open.lines++;
      } else close(start);
      within++;
    } else {
      close(start);
      within = isRow && before !== "" && DELIMITER.test(line) ? 1 : 0;
    }
    before = line;
    start = next;
  }
  close(text.length);
  if (gaps.length === 0) return undefined;
  return { text: shortened + text.slice(kept), gaps };
}

/** Code that is no longer costs the parser little. */
const LONG_CODE = 400;

/**
 * Long code that the line opens which begins there, up to the line that closes it or the end of the text. Undefined where there
 * is none, or a tab in it: how far it reaches is told by what stands before it.
 */
function codeAt(
  text: string,
  line: number,
  next: number,
  most: number,
): { readonly fence: Fence; readonly end: number; readonly lines: number } | undefined {
  const fence = fenceAt(text, line);
  if (!fence) return undefined;
  const end = closingLine(text, fence)?.start ?? text.length;
  if (end - next < LONG_CODE || end - next > most || /[\0\t]/.test(text.slice(next, end))) return undefined;
  let lines = 0;
  for (let at = text.indexOf("\n", next); at >= 0 && at < end; at = text.indexOf("\n", at + 1)) lines++;
  return { fence, end, lines };
}

/**
 * Puts the rows and the code into the tree of the shortened text, which becomes that of the whole one; false, and the tree is of no use,
 * where they stood in no table at root level after all, such as in a fence.
 */
export function putRowsBack(tree: Root, text: string, { gaps }: Shortened): boolean {
  let next = 0;
  let offset = 0;
  let line = 0;
  for (const node of tree.children) {
    const end = node.position?.end.offset ?? Number.NaN;
    const gap = gaps[next];
    const isAhead = !gap || end <= (gap.fence?.start ?? gap.at);
    if (isAhead) {
      if (offset > 0) move(node, offset, line);
      continue;
    }
    if (gap.fence) {
      if (node.type !== "code" || node.position?.start.offset !== gap.fence.start || node.value !== "")
        return false;
      if (offset > 0) move(node, offset, line);
      offset += gap.to - gap.from;
      line += gap.lines;
      fillCode(node, text, gap, gap.fence);
      if (gap.to < text.length) moveTo(node.position.end, gap.to - gap.from, gap.lines);
      else node.position.end = endOf(text, node.position.end.line + gap.lines);
      next++;
      continue;
    }
    if (node.type !== "table" || !((node.position?.start.offset ?? Number.NaN) < gaps[next]!.at))
      return false;
    const { position } = node;
    if (position) moveTo(position.start, offset, line);
    const rows: TableRow[] = [];
    for (const row of node.children) {
      const gap = gaps[next];
      if (gap && row.position?.start.offset === gap.at) {
        const first = row.position.start.line + line;
        for (const made of rowsOf(text, gap, first)) rows.push(made);
        offset += gap.to - gap.from;
        line += gap.lines;
        next++;
      }
      if (offset > 0) move(row, offset, line);
      rows.push(row);
    }
    if (next < gaps.length && gaps[next]!.at < end) return false;
    node.children = rows;
    if (position) moveTo(position.end, offset, line);
  }
  if (next < gaps.length) return false;
  const last = tree.position?.end;
  if (!last) return true;
  moveTo(last, offset, line);
  if (gaps.at(-1)?.to === text.length) Object.assign(last, endOf(text, last.line));
  return true;
}

/** The end of a text whose last line has that number. */
function endOf(text: string, line: number): Point {
  return { line, column: text.length - text.lastIndexOf("\n"), offset: text.length };
}

function fillCode(node: Code, text: string, { from, to }: Gap, { indent }: Fence): void {
  const code = text.slice(from, to).replace(/\r?\n$/, "");
  node.value = indent === 0 ? code : code.replace(new RegExp(`(^|\\n) {1,${indent}}`, "g"), "$1");
}

interface Positioned {
  readonly position?: { start: Point; end: Point } | undefined;
  readonly children?: readonly Positioned[];
}

function move(node: Positioned, offset: number, line: number): void {
  if (node.position) {
    moveTo(node.position.start, offset, line);
    moveTo(node.position.end, offset, line);
  }
  for (const child of node.children ?? []) move(child, offset, line);
}

function moveTo(point: Point, offset: number, line: number): void {
  point.line += line;
  if (point.offset !== undefined) point.offset += offset;
}

function* rowsOf(text: string, { from, to }: Gap, first: number): Generator<TableRow> {
  let line = first;
  for (let start = from; start < to; line++) {
    const newline = text.indexOf("\n", start);
    const end = text[newline - 1] === "\r" ? newline - 1 : newline;
    yield rowOf(text, start, end, line);
    start = newline + 1;
  }
}

/** A row as the parser gives it. @param end of its last pipe, without the line's end @param line counted from 1 */
export function rowOf(text: string, start: number, end: number, line: number): TableRow {
  const point = (offset: number): Point => ({ line, column: offset - start + 1, offset });
  const children: TableCell[] = [];
  for (let pipe = start; pipe < end - 1; ) {
    const next = text.indexOf("|", pipe + 1);
    let from = pipe + 1;
    let to = next;
    while (from < to && text.charCodeAt(from) === 32) from++;
    while (to > from && text.charCodeAt(to - 1) === 32) to--;
    children.push({
      type: "tableCell",
      children:
        from === to
          ? []
          : [
              {
                type: "text",
                value: text.slice(from, to),
                position: { start: point(from), end: point(to) },
              },
            ],
      // The last cell has the pipe that ends the row.
      position: { start: point(pipe), end: point(next === end - 1 ? end : next) },
    });
    pipe = next;
  }
  return { type: "tableRow", children, position: { start: point(start), end: point(end) } };
}
