// Blocks of headings, paragraphs and tables without any markup in their words: most of a log, read here in one go and to
// the last position as the parser reads them. Where a single line is anything else, the whole block is the parser's.

import type { AlignType, Heading, Paragraph, Root, RootContent, Table, Text } from "mdast";
import { isPlainRow, rowOf, withoutNoMarks } from "./plain-rows";
import { chunksIn } from "./row-chunks";

type Point = NonNullable<Root["position"]>["start"];

/** No inline mark, no escape, no control character; a pipe may make a table. */
const WORDS = /^[^\0-\x1f\x7f*_`[\]<&\\~@|]*$/;
const ADDRESS = /:\/\/|www/i;
const HEADING = /^(#{1,6}) +(?=[^#\s])[^#]*[^#\s]$/;
/** A line that can only be of a paragraph: it begins with a word, and with no number of a list. */
const BEGINS = /^(?!\d{1,9}[.)])["'(]?[\p{L}\p{N}]/u;
const DELIMITER = /^\|(?: *:?-+:? *\|)+$/;

/** Most characters of a line of words, and of all lines of words together; tables may have as many rows as they like. */
export interface Most {
  readonly line: number;
  readonly words: number;
}

/** The tree of a block's text, positions and all; undefined where it is not as plain as that. */
export const plainTree = (text: string, most: Most): Root | undefined => treeOf(text, most, true);

/** The same, but long tables may be without their rows. */
export const plainOutline = (text: string, most: Most): Root | undefined => treeOf(text, most, false);

function treeOf(text: string, most: Most, withRows: boolean): Root | undefined {
  const children: RootContent[] = [];
  let words = 0;
  let number = 1;
  let lastStart = 0;
  let paragraph: Paragraph | undefined;
  let table: Table | undefined;
  // A table's first line, which counts only where a delimiter row is below it.
  let header: { readonly start: number; readonly end: number; readonly line: number } | undefined;
  let previous: "blank" | "heading" | "words" | "table" = "blank";

  for (let start = 0; start < text.length; number++) {
    const { end, next } = lineAt(text, start);
    lastStart = next > start && text.charCodeAt(next - 1) === 10 ? next : start;
    const line = text.slice(start, Math.max(start, end));
    const at = (offset: number): Point => ({ line: number, column: offset - start + 1, offset });
    if (header) {
      table = tableOf(text, header, line);
      if (!table) return undefined;
      children.push(table);
      header = undefined;
      const body = withRows ? undefined : longBody(text, next);
      if (body) {
        number += body.count;
        table.position!.end = { line: number, column: body.end - body.lastStart + 1, offset: body.end };
        lastStart = body.next > body.end ? body.next : body.lastStart;
        start = body.next;
        continue;
      }
    } else if (line === "") {
      paragraph = undefined;
      table = undefined;
      previous = "blank";
    } else if (line.charCodeAt(0) === 124) {
      if (previous === "words" || !isPlainRow(line)) return undefined;
      if (table) {
        table.children.push(rowOf(text, start, end, number));
        table.position!.end = at(end);
      } else header = { start, end, line: number };
      previous = "table";
    } else {
      words += line.length;
      if (line.length > most.line || words > most.words) return undefined;
      if (!(WORDS.test(line) || WORDS.test(withoutNoMarks(line))) || ADDRESS.test(line)) return undefined;
      const marks = HEADING.exec(line)?.[1];
      if (marks !== undefined) {
        children.push(headingOf(line, marks.length as Heading["depth"], at, start, end));
        paragraph = undefined;
        table = undefined;
        previous = "heading";
      } else {
        if (!BEGINS.test(line) || line.endsWith(" ") || previous === "table") return undefined;
        if (paragraph) extend(paragraph, text, at(end));
        else {
          paragraph = paragraphOf(line, at(start), at(end));
          children.push(paragraph);
        }
        previous = "words";
      }
    }
    start = next;
  }
  if (header) return undefined;
  const last = text.endsWith("\n") || text === "" ? number : number - 1;
  return {
    type: "root",
    children,
    position: {
      start: { line: 1, column: 1, offset: 0 },
      end: { line: last, column: text.length - lastStart + 1, offset: text.length },
    },
  };
}

/** The line that begins there: where its words end, and where the next one begins. */
function lineAt(text: string, start: number): { readonly end: number; readonly next: number } {
  const newline = text.indexOf("\n", start);
  if (newline < 0) return { end: text.length, next: text.length };
  return { end: text.charCodeAt(newline - 1) === 13 ? newline - 1 : newline, next: newline + 1 };
}

interface LongBody {
  readonly count: number;
  readonly lastStart: number;
  /** Of its last row. */
  readonly end: number;
  readonly next: number;
}

/** The rows from there on, where they are many and all plain; undefined where they had better be looked at one by one. */
function longBody(text: string, from: number): LongBody | undefined {
  let count = 0;
  let lastStart = from;
  let end = from;
  let next = from;
  while (text.charCodeAt(next) === 124) {
    count++;
    lastStart = next;
    ({ end, next } = lineAt(text, next));
  }
  const chunks = chunksIn(text, from, end);
  return chunks?.every(({ chunk }) => chunk.isPlain) ? { count, lastStart, end, next } : undefined;
}

function headingOf(
  line: string,
  depth: Heading["depth"],
  at: (offset: number) => Point,
  start: number,
  end: number,
): Heading {
  const value = line.slice(depth).trimStart();
  const text: Text = { type: "text", value, position: { start: at(end - value.length), end: at(end) } };
  return { type: "heading", depth, children: [text], position: { start: at(start), end: at(end) } };
}

function paragraphOf(value: string, start: Point, end: Point): Paragraph {
  const text: Text = { type: "text", value, position: { start: { ...start }, end: { ...end } } };
  return { type: "paragraph", children: [text], position: { start, end } };
}

function extend({ children, position }: Paragraph, text: string, end: Point): void {
  const [words] = children as [Text];
  words.value = text.slice(position!.start.offset, end.offset);
  words.position!.end = { ...end };
  position!.end = end;
}

/** Undefined where the line below the header is no delimiter row with as many cells. */
function tableOf(
  text: string,
  { start, end, line }: { readonly start: number; readonly end: number; readonly line: number },
  delimiter: string,
): Table | undefined {
  if (!DELIMITER.test(delimiter)) return undefined;
  const align = delimiter.slice(1, -1).split("|").map(alignOf);
  const header = rowOf(text, start, end, line);
  if (header.children.length !== align.length) return undefined;
  return {
    type: "table",
    align,
    children: [header],
    position: {
      start: { line, column: 1, offset: start },
      end: {
        line: line + 1,
        column: delimiter.length + 1,
        offset: text.indexOf("\n", start) + 1 + delimiter.length,
      },
    },
  };
}

function alignOf(cell: string): AlignType {
  const marks = cell.trim();
  const left = marks.startsWith(":");
  const right = marks.endsWith(":");
  return left && right ? "center" : left ? "left" : right ? "right" : null;
}

/** Fences with nothing behind them, and between them lines in which nothing could be taken for a control character. */
const FRONT = /^---\n((?:[^\0-\x1f\x7f\ufeff]*\n)+)---(\n?)$/;

/** The tree of a text that is front matter from its first character to its last; undefined where it is not as plain as that. */
export function plainFront(text: string): Root | undefined {
  const found = FRONT.exec(text);
  if (!found) return undefined;
  const [, content = "", newline = ""] = found;
  let line = 2;
  for (let at = content.indexOf("\n"); at >= 0; at = content.indexOf("\n", at + 1)) line++;
  const start: Point = { line: 1, column: 1, offset: 0 };
  const end: Point = { line, column: 4, offset: text.length - newline.length };
  const behind: Point = newline ? { line: line + 1, column: 1, offset: text.length } : { ...end };
  return {
    type: "root",
    children: [{ type: "yaml", value: content.slice(0, -1), position: { start, end } }],
    position: { start: { ...start }, end: behind },
  };
}
