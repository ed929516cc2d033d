// A table with one character wrong in its second line is no table but a paragraph, and its readings would be
// overlooked without a word. This finds paragraphs that look like one, and the line that would make it one.

import type { Root, RootContent } from "mdast";
import type { TextEdit } from "../text/edits";
import { type Span, slice } from "../text/span";
import { nodeSpan } from "./node-span";
import { linesOf, type SplitRow, splitRow } from "./rows";
import { alignOf } from "./tables";

/** A paragraph that was meant as a table, and what keeps it from being one. */
export interface AlmostTable {
  /** From the header line to the last line with pipes, white space at the ends left out. */
  readonly span: Span;
  readonly reason: "delimiter-count" | "delimiter-malformed" | "delimiter-missing";
  /** The line that was meant as header. */
  readonly header: Span;
  /** The line that was meant as delimiter row; absent where there is none. */
  readonly delimiter?: Span;
  readonly headerCount: number;
  /** Cells in the delimiter row as typed; 0 where there is none. */
  readonly delimiterCount: number;
  /** Corrects or inserts the delimiter row, after which the lines from the header on are a table. */
  readonly fix: TextEdit;
}

/** Finds them among the paragraphs, and headings underlined by mistake, at root level. */
export function almostTablesIn(text: string, tree: Root): readonly AlmostTable[] {
  const found: AlmostTable[] = [];
  tree.children.forEach((node, i) => {
    if (node.type === "heading") {
      const one = underlined(text, node, tree.children[i + 1]);
      if (one !== undefined) found.push(one);
      return;
    }
    if (node.type !== "paragraph") return;
    const span = nodeSpan(text, node);
    if (span === undefined) return;
    for (const run of pipeRuns(text, span)) {
      const one = inRun(text, run);
      if (one !== undefined) found.push(one);
    }
  });
  return found;
}

/** Runs of two or more consecutive lines that each hold a pipe. */
function pipeRuns(text: string, span: Span): SplitRow[][] {
  const runs: SplitRow[][] = [];
  let run: SplitRow[] = [];
  for (const line of linesOf(text, span)) {
    const row = splitRow(text, line);
    // Four columns of white space make no header and no delimiter row.
    const indented = row.span.start - line.start > 3 || text.slice(line.start, row.span.start).includes("\t");
    if (row.pipes > 0 && !indented) {
      run.push(row);
    } else {
      runs.push(run);
      run = [];
    }
  }
  runs.push(run);
  return runs.filter((each) => each.length > 1);
}

function inRun(text: string, run: readonly SplitRow[]): AlmostTable | undefined {
  const last = run.at(-1)!;
  for (const [i, row] of run.entries()) {
    const header = run[i - 1];
    // Right below the first line a row of marks is a delimiter row; further down a row of single dashes is
    // more likely "not measured".
    if (header === undefined || !looksLikeDelimiter(text, row, i === 1 ? 1 : 2)) continue;
    // A line of nothing but one pipe heads no table, whatever stands below.
    if (slice(text, header.span) === "|") continue;
    const strict = row.pieces.every(({ span }) => STRICT.test(slice(text, span)));
    return {
      span: { start: header.span.start, end: last.span.end },
      reason: strict ? "delimiter-count" : "delimiter-malformed",
      header: header.span,
      delimiter: row.span,
      headerCount: header.pieces.length,
      delimiterCount: row.pieces.length,
      fix: { span: row.span, newText: delimiterFor(text, header, row) },
    };
  }

  const [header, second] = run;
  const count = header!.pieces.length;
  if (run.length < 3 || run.some((row) => row.pipes < 2 || row.pipes !== header!.pipes)) return undefined;
  const start = lineStart(text, second!.span.start);
  return {
    span: { start: header!.span.start, end: last.span.end },
    reason: "delimiter-missing",
    header: header!.span,
    headerCount: count,
    delimiterCount: 0,
    fix: {
      span: { start, end: start },
      newText: delimiterFor(text, header!, undefined) + lineEndBefore(text, start),
    },
  };
}

/** `| a | b |` above a bare `---`: a delimiter row of one cell, which Markdown takes for a heading's underline. */
function underlined(text: string, node: RootContent, next: RootContent | undefined): AlmostTable | undefined {
  const span = nodeSpan(text, node);
  const below = next === undefined ? undefined : nodeSpan(text, next);
  if (span === undefined) return undefined;
  const lines = linesOf(text, span).map((line) => splitRow(text, line));
  const underline = lines.at(-1);
  const header = lines.at(-2);
  if (underline === undefined || header === undefined || header.pipes === 0) return undefined;
  if (!/^-+$/.test(slice(text, underline.span))) return undefined;
  const rows =
    next?.type === "paragraph" &&
    below !== undefined &&
    /^[ \t]*(?:\r\n|\r|\n)[ \t]*$/.test(text.slice(span.end, below.start))
      ? linesOf(text, below).map((line) => splitRow(text, line))
      : [];
  const firstWithout = rows.findIndex((row) => row.pipes === 0);
  const data = firstWithout < 0 ? rows : rows.slice(0, firstWithout);
  // "Display | lamps" over a rule may well be a heading; a row below, or a pipe at its beginning, says it is none.
  if (data.length === 0 && !header.leadingPipe) return undefined;
  if (header.pieces.length < 2 && !header.leadingPipe) return undefined;
  return {
    span: { start: header.span.start, end: (data.at(-1) ?? underline).span.end },
    reason: "delimiter-count",
    header: header.span,
    delimiter: underline.span,
    headerCount: header.pieces.length,
    delimiterCount: 1,
    fix: { span: underline.span, newText: delimiterFor(text, header, underline) },
  };
}

const STRICT = /^:?-+:?$/;
const MARK = /[-=_:\u2013\u2014]/g;

/** At least one cell holds `least` marks in a row, and marks are at least two thirds of all that is typed. */
function looksLikeDelimiter(text: string, row: SplitRow, least: number): boolean {
  const typed = row.pieces.map(({ span }) => slice(text, span).replace(/[ \t]/g, ""));
  const all = typed.join("");
  const marks = all.match(MARK)?.length ?? 0;
  return all.length > 0 && marks * 3 >= all.length * 2 && typed.some((cell) => isMarks(cell, least));
}

const isMarks = (cell: string, least: number): boolean =>
  /^:?(?:-+|=+|_+|\u2013+|\u2014+):?$/.test(cell) && cell.replace(/:/g, "").length >= least;

/** A delimiter row with as many cells as the header, each as wide, that keeps the alignments already typed. */
function delimiterFor(text: string, header: SplitRow, typed: SplitRow | undefined): string {
  const cells = header.pieces.map(({ outer }, i) => {
    const old = typed?.pieces[i];
    const align = old === undefined ? null : alignOf(slice(text, old.span));
    const width = header.leadingPipe && header.trailingPipe ? outer.end - outer.start : 5;
    const inner = Math.max(3, width - 2) - (align === null ? 0 : align === "center" ? 2 : 1);
    const left = align === "left" || align === "center" ? ":" : "";
    const right = align === "right" || align === "center" ? ":" : "";
    return ` ${left}${"-".repeat(inner)}${right} `;
  });
  return `|${cells.join("|")}|`;
}

function lineStart(text: string, at: number): number {
  let start = at;
  while (start > 0 && text[start - 1] !== "\r" && text[start - 1] !== "\n") start--;
  return start;
}

/** The line end that stands before the offset, which is the start of a line but the first. */
const lineEndBefore = (text: string, at: number): string =>
  text[at - 1] === "\r" ? "\r" : text[at - 2] === "\r" ? "\r\n" : "\n";
