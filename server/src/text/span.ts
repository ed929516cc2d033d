/** A half-open range of UTF-16 code units in one document: `start` is in it, `end` is not. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export const span = (start: number, end: number): Span => ({ start, end });

export const shift = (s: Span, by: number): Span => ({ start: s.start + by, end: s.end + by });

/** True where the offset is in the span or right behind its last character, as a cursor is. */
export const touches = (s: Span, offset: number): boolean => offset >= s.start && offset <= s.end;

export const contains = (s: Span, offset: number): boolean => offset >= s.start && offset < s.end;

export const slice = (text: string, s: Span): string => text.slice(s.start, s.end);
