import type { Span } from "./span";

/** Puts `newText` in place of `span`; an empty span inserts, an empty text deletes. */
export interface TextEdit {
  readonly span: Span;
  readonly newText: string;
}

/** Two edits that only meet collide too: which of two insertions comes first is not ours to say. */
export const collide = (a: TextEdit, b: TextEdit): boolean =>
  a.span.start <= b.span.end && b.span.start <= a.span.end;

/**
 * The text after all edits, whose spans are all offsets in the text given. The order of the list only matters
 * for insertions at one place, which keep it.
 * @throws TypeError where two edits overlap or one lies outside the text: edits are made by us, so it is a bug.
 */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  const ordered = [...edits].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  const parts: string[] = [];
  let done = 0;
  for (const { span, newText } of ordered) {
    if (!(span.start >= 0 && span.start <= span.end && span.end <= text.length)) {
      throw new TypeError(`edit ${span.start}-${span.end} is outside the text of ${text.length} characters`);
    }
    if (span.start < done)
      throw new TypeError(`edit ${span.start}-${span.end} overlaps one that ends at ${done}`);
    parts.push(text.slice(done, span.start), newText);
    done = span.end;
  }
  parts.push(text.slice(done));
  return parts.join("");
}

/**
 * One edit that turns `before` into `after`: what lies between their common beginning and their common end.
 * Undefined where they are equal. Surrogate pairs and `\r\n` are never cut in two.
 */
export function editBetween(before: string, after: string): TextEdit | undefined {
  if (before === after) return undefined;
  const shorter = Math.min(before.length, after.length);
  let head = 0;
  while (head < shorter && before[head] === after[head]) head++;
  while (head > 0 && (splitsPair(before, head) || splitsPair(after, head))) head--;
  let tail = 0;
  while (tail < shorter - head && before.at(-1 - tail) === after.at(-1 - tail)) tail++;
  while (tail > 0 && (splitsPair(before, before.length - tail) || splitsPair(after, after.length - tail)))
    tail--;
  return {
    span: { start: head, end: before.length - tail },
    newText: after.slice(head, after.length - tail),
  };
}

const splitsPair = (text: string, at: number): boolean =>
  /^(?:[\uD800-\uDBFF][\uDC00-\uDFFF]|\r\n)$/.test(text.slice(at - 1, at + 1));
