import type { Range } from "vscode-languageserver";
import { type LineIndex, lineIndex } from "../text/line-index";
import type { Span } from "../text/span";

/** A text with its lines, which are looked for when they are first asked for. */
export interface LinedText {
  readonly text: string;
  readonly lines: LineIndex;
}

export function linedText(text: string): LinedText {
  let lines: LineIndex | undefined;
  return {
    text,
    get lines() {
      lines ??= lineIndex(text);
      return lines;
    },
  };
}

export const toLspRange = (lines: LineIndex, span: Span): Range => ({
  start: lines.positionAt(span.start),
  end: lines.positionAt(span.end),
});

/** A range whose ends are the wrong way round is read the right way round. */
export function spanOf(lines: LineIndex, range: Range): Span {
  const a = lines.offsetAt(range.start);
  const b = lines.offsetAt(range.end);
  return { start: Math.min(a, b), end: Math.max(a, b) };
}

export const sameRange = (a: Range, b: Range): boolean =>
  a.start.line === b.start.line &&
  a.start.character === b.start.character &&
  a.end.line === b.end.line &&
  a.end.character === b.end.character;
