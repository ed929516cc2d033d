// A row that was written ahead of its reading, kept in mind until something is typed into it.
import { applyEdits } from "../../text/edits";
import { type Span, slice } from "../../text/span";
import type { TypingStep } from "./next-cell";
import { lineSpanAt } from "./sheet";

/** The row that was started last, as it is known again after other edits. */
export interface StartedRow {
  /** The row's line as it was written, and where in it the cursor was put. */
  readonly text: string;
  readonly column: number;
  /** What stood above it; a row of the same text elsewhere is another one. */
  readonly above: string;
}

/** What to keep in mind of a step; undefined where it started no row. */
export function startedBy(step: TypingStep, text: string): StartedRow | undefined {
  if (step.started === undefined) return undefined;
  const after = applyEdits(text, step.edits);
  const line = lineSpanAt(after, step.started);
  return { text: slice(after, line), column: step.cursor - line.start, above: aboveOf(after, line) };
}

/** True where the line is the row as it was started. */
export const isStartedRow = (row: StartedRow | undefined, text: string, line: Span): boolean =>
  row !== undefined && slice(text, line) === row.text && aboveOf(text, line) === row.above;

/**
 * What to do when a pipe is typed into a row that was started: whoever types one types the row by hand, and gets the line
 * with nothing on it but what was typed, the cursor behind it. Undefined where something else happened to the row.
 */
export function takeBack(row: StartedRow | undefined, text: string, offset: number): TypingStep | undefined {
  if (!row) return undefined;
  const line = lineSpanAt(text, offset);
  const now = slice(text, line);
  const [head, tail] = [row.text.slice(0, row.column), row.text.slice(row.column)];
  if (now.length <= row.text.length || !now.startsWith(head) || !now.endsWith(tail)) return undefined;
  const typed = now.slice(head.length, now.length - tail.length);
  if (!typed.startsWith("|") || aboveOf(text, line) !== row.above) return undefined;
  return { edits: [{ span: line, newText: typed }], cursor: line.start + typed.length };
}

const ABOVE = 400;

/** The end of what stands above a line. */
const aboveOf = (text: string, line: Span): string => text.slice(Math.max(0, line.start - ABOVE), line.start);
