// Fences of code at the root of a document, told by their lines alone: whether a list or a quote has one in it is the
// parser's to say.

/** Backticks or tildes that open code. */
export interface Fence {
  /** Of the first mark. */
  readonly start: number;
  /** Spaces before it, which are taken off each line of the code too. */
  readonly indent: number;
  /** The marks: as many of them and more close it. */
  readonly marks: string;
}

const OPENING = / {0,3}(?:(`{3,})[^`\r\n]*|(~{3,})[^\r\n]*)(?=[\r\n]|$)/y;

/** The fence that the line opens which begins there; undefined where it opens none. */
export function fenceAt(text: string, line: number): Fence | undefined {
  OPENING.lastIndex = line;
  const found = OPENING.exec(text);
  const marks = found?.[1] ?? found?.[2];
  if (!found || marks === undefined) return undefined;
  const indent = found[0].indexOf(marks);
  return { start: line + indent, indent, marks };
}

/**
 * The line that closes a fence; undefined where none does, and the rest of the document is code.
 * @returns where the line begins, and the end of its words
 */
export function closingLine(
  text: string,
  { start, marks }: Pick<Fence, "start" | "marks">,
): { readonly start: number; readonly end: number } | undefined {
  const closing = new RegExp(`(?<=[\\r\\n]) {0,3}${marks[0]}{${marks.length},}[ \\t]*(?=[\\r\\n]|$)`, "g");
  closing.lastIndex = start + marks.length;
  const found = closing.exec(text);
  return found ? { start: found.index, end: found.index + found[0].length } : undefined;
}
