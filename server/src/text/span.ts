/** A half-open range of UTF-16 code units in one document: `start` is in it, `end` is not. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** The span from one offset up to, and without, another. */
export const span = (start: number, end: number): Span => ({ start, end });

/** The same stretch counted from elsewhere: a span of a block, by where the block starts, is one of the document. */
export const shift = (s: Span, by: number): Span => ({ start: s.start + by, end: s.end + by });

/** True where the offset is in the span or right behind its last character, as a cursor is. */
export const touches = (s: Span, offset: number): boolean => offset >= s.start && offset <= s.end;

/**
 * True where the character at the offset is one of the span's; the place right behind the last is not, as it is for
 * `touches`.
 */
export const contains = (s: Span, offset: number): boolean => offset >= s.start && offset < s.end;

/** The text that a span covers; both have to count from the same start. */
export const slice = (text: string, s: Span): string => text.slice(s.start, s.end);
