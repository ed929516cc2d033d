// Text of the log made safe for the formats it is put into.

/** Characters that no HTML text may hold: they would be parse errors, and mean nothing to a reader. */
const NOT_TEXT = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufdd0-\ufdef\ufffe\uffff]|\p{Cs}/gu;

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** For element content and for attributes in double quotes alike. */
export const html = (text: string): string =>
  text.replace(NOT_TEXT, "\ufffd").replace(/[&<>"']/g, (mark) => ENTITIES[mark]!);

/** Longest run without a place to break the line, in characters: a longer one would push a table off the page. */
const LONGEST_WORD = 24;

/** Element content whose long words may be broken. */
export const cell = (text: string): string =>
  text
    .split(/(\S{25,})/u)
    .map((piece, i) => (i % 2 === 0 ? html(piece) : inPieces(piece).map(html).join("<wbr>")))
    .join("");

function inPieces(word: string): string[] {
  const letters = [...word];
  const pieces: string[] = [];
  for (let at = 0; at < letters.length; at += LONGEST_WORD)
    pieces.push(letters.slice(at, at + LONGEST_WORD).join(""));
  return pieces;
}

/**
 * For a line of Markdown or a cell of a table: it reads as typed, makes no HTML, link, emphasis, list or heading, and
 * stays on one line.
 */
export const markdown = (text: string): string =>
  text
    .replace(NOT_TEXT, "\ufffd")
    .replace(/\s*[\r\n]+\s*/g, " ")
    .trim()
    .replace(/[\\`*_{}[\]<>#|~&!]/g, "\\$&")
    .replace(/^(\s*)([-+=])(?!\w)/, "$1\\$2")
    .replace(/^(\s*\d{1,9})([.)])/, "$1\\$2")
    .replace(/\b(https?|ftp|mailto):|\bwww\./gi, (start) => `${start.slice(0, -1)}\\${start.slice(-1)}`);
