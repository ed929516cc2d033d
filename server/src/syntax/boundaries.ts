// Where a document may be cut. An ATX heading in column 0 closes every list, quote, footnote, paragraph and
// table above it; only a fence, an HTML block or front matter can swallow it. What is found here is a proposal:
// the parser confirms each cut (see blocks.ts), so a wrong proposal costs time, never a wrong tree.

import type { Span } from "../text/span";
import { closingLine, fenceAt } from "./fences";

export interface FrontMatterSpans {
  /** Both fences and the line end behind the closing one. */
  readonly span: Span;
  /** The YAML between the fence lines, its last line end included; empty where the fences touch. */
  readonly content: Span;
}

const OPENING = /---[ \t]*(?:\r\n|\n|\r)/y;
const CLOSING = /(?<=[\r\n])---[ \t]*(?:\r\n|\n|\r|$)/g;

/** Front matter that opens right at `at`; undefined where the fence is missing or never closed. */
export function findFrontMatter(text: string, at: number): FrontMatterSpans | undefined {
  OPENING.lastIndex = at;
  if (!OPENING.test(text)) return undefined;
  const start = OPENING.lastIndex;
  CLOSING.lastIndex = start;
  const closing = CLOSING.exec(text);
  if (closing === null) return undefined;
  return {
    span: { start: at, end: closing.index + closing[0].length },
    content: { start, end: closing.index },
  };
}

// `^` with the m flag would also match behind U+2028, which ends no Markdown line.
const MARKS = /(?<=[\r\n])(?:#{1,6}(?=[ \t\r\n]|$)|(`{3,})[^`\r\n]*(?=[\r\n]|$)|(~{3,})[^\r\n]*|(<!--))/g;

const FIRST = /(?:(`{3,})[^`\r\n]*(?=[\r\n]|$)|(~{3,})[^\r\n]*|(<!--))/y;

/**
 * Offsets, ascending and greater than `from`, of headings in column 0 that stand outside fences and comments
 * which themselves begin in column 0, looked for as they are asked for. `from` is the start of a line.
 */
export function* headingStarts(text: string, from: number): Generator<number, void> {
  // The first line may have no line end before it that the expression could look back at.
  FIRST.lastIndex = from;
  const first = FIRST.exec(text);
  let at = first === null ? from + 1 : endOfOpaque(text, from, first);
  while (at !== undefined) {
    MARKS.lastIndex = at;
    const mark = MARKS.exec(text);
    if (mark === null) return;
    at = MARKS.lastIndex;
    if (mark[1] === undefined && mark[2] === undefined && mark[3] === undefined) yield mark.index;
    else at = endOfOpaque(text, mark.index, mark);
  }
}

/** What is given one after another by its number from 0, taken no further than it is asked for; undefined behind the last. */
export function asAsked<T>(source: Iterator<T, void>): (index: number) => T | undefined {
  const taken: T[] = [];
  let isDone = false;
  return (index) => {
    while (!isDone && taken.length <= index) {
      const next = source.next();
      if (next.done) isDone = true;
      else taken.push(next.value);
    }
    return taken[index];
  };
}

/** Offset behind the fence or comment that opens at `at`; undefined where it runs to the end of the text. */
function endOfOpaque(text: string, at: number, mark: RegExpExecArray): number | undefined {
  const fence = mark[1] ?? mark[2];
  if (fence === undefined) {
    // `<!-->` is a whole comment, so the search starts inside the opening.
    const close = text.indexOf("-->", at + 2);
    return close < 0 ? undefined : close + 3;
  }
  return closingLine(text, { start: at, marks: fence })?.end;
}

/**
 * Where an indented fence ends that was opened in a stretch of text and not closed in it: at the end of the text where it
 * never is. Undefined where no line of the stretch looks like one.
 * @param from the start of a line
 */
export function endOfIndentedFence(text: string, from: number, to: number): number | undefined {
  for (let line = from; line < to; ) {
    const fence = text.charCodeAt(line) === 32 ? fenceAt(text, line) : undefined;
    const behind = fence && (closingLine(text, fence)?.end ?? text.length);
    if (behind !== undefined && behind >= to) return behind;
    line = text.indexOf("\n", behind ?? line) + 1 || to;
  }
  return undefined;
}
