/** A place as the language server protocol gives it: both from 0, `character` in UTF-16 code units. */
export interface LinePosition {
  readonly line: number;
  readonly character: number;
}

/**
 * Where the lines of one unchanging text begin. A line ends at `\n`, `\r\n` or a lone `\r`, as the protocol
 * says; a text that ends in a line end has one more, empty, line. Nothing here throws: a line, character or
 * offset outside the text is drawn in to the nearest place inside it.
 */
export interface LineIndex {
  readonly length: number;
  /** At least 1. */
  readonly lineCount: number;
  /** Offset of the line's first character. */
  lineStart(line: number): number;
  /** Offset behind the line's last character, before its line end. */
  lineEnd(line: number): number;
  /** Number of the line that holds the offset; a line end belongs to the line it ends. */
  lineAt(offset: number): number;
  /** A character beyond the line's end means the line's end. */
  offsetAt(position: LinePosition): number;
  /** An offset between `\r` and `\n` is the end of that line. */
  positionAt(offset: number): LinePosition;
}

const LF = 10;
const CR = 13;

/**
 * The lines of a text, which end at `\r\n`, `\n` or `\r`. Lines and characters count from 0; what is out of range is
 * taken as the nearest there is.
 */
export function lineIndex(text: string): LineIndex {
  const starts = [0];
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    if (unit === CR && text.charCodeAt(i + 1) === LF) i++;
    if (unit === CR || unit === LF) starts.push(i + 1);
  }
  const length = text.length;
  const last = starts.length - 1;

  const lineStart = (line: number): number => starts[within(line, last)]!;

  const lineEnd = (line: number): number => {
    const n = within(line, last);
    if (n === last) return length;
    const next = starts[n + 1]!;
    const crlf = text.charCodeAt(next - 1) === LF && text.charCodeAt(next - 2) === CR;
    return next - (crlf ? 2 : 1);
  };

  const lineAt = (offset: number): number => {
    const at = within(offset, length);
    let low = 0;
    let high = last;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (starts[middle]! <= at) low = middle;
      else high = middle - 1;
    }
    return low;
  };

  const offsetAt = ({ line, character }: LinePosition): number => {
    if (line > last) return length;
    if (!(line >= 0)) return 0;
    return Math.min(lineStart(line) + within(character, length), lineEnd(line));
  };

  const positionAt = (offset: number): LinePosition => {
    const line = lineAt(offset);
    return { line, character: Math.min(within(offset, length), lineEnd(line)) - starts[line]! };
  };

  return { length, lineCount: starts.length, lineStart, lineEnd, lineAt, offsetAt, positionAt };
}

/** A whole number from 0 to `most`; what is no number counts as 0. */
const within = (value: number, most: number): number => (value > 0 ? Math.min(Math.floor(value), most) : 0);
