// Markdown that the program shows: a type of its own, so that a text which nobody has made safe does not compile where Markdown
// is wanted. It is made in no other way than here: text from a file by `md` or `code`, our own words by `markdown`.
import { NOT_SHOWN } from "./not-shown";

declare const MARKDOWN: unique symbol;

/** Markdown whose every mark is ours. */
export type Markdown = string & { readonly [MARKDOWN]: true };

/**
 * Text from anywhere, for a line of Markdown or a cell of a table: it reads as it was typed, makes no HTML, link, picture,
 * emphasis, list or heading, and stays on one line.
 */
export const md = (text: string): Markdown =>
  text
    .replace(NOT_SHOWN, "\ufffd")
    .replace(/\s*[\r\n]+\s*/g, " ")
    // As many blanks in front would make it code.
    .replace(/^(?: {4,}|[ ]{0,3}\t\s*)/, "")
    .replace(/[\\`*_{}[\]<>#|~&]/g, "\\$&")
    .replace(/^(\s*)([-+=])(?!\w)/, "$1\\$2")
    .replace(/^(\s*\d{1,9})([.)])(?=\s|$)/, "$1\\$2")
    .replace(/\b(https?|ftp|mailto|xmpp):|\bwww\./gi, (start) => `${start.slice(0, -1)}\\${start.slice(-1)}`)
    .replace(/(\w)@(?=\w)/g, "$1\\@") as Markdown;

/** Text from anywhere as code, on one line, whatever backticks are in it. */
export const code = (text: string): Markdown =>
  `\`${text
    .replace(NOT_SHOWN, "\ufffd")
    .replace(/\s*[\r\n]+\s*/g, " ")
    .replace(/`/g, "'")}\`` as Markdown;

/** Our own words as they stand, marks and all, with Markdown in their gaps: markdown`**${md(ref)}** is dead.` */
export const markdown = (
  words: TemplateStringsArray,
  ...gaps: readonly (Markdown | number | "")[]
): Markdown => String.raw({ raw: words }, ...gaps) as Markdown;

/** What may stand between pieces. */
export type Between =
  | ""
  | " "
  | ", "
  | "; "
  | " and "
  | " · "
  | " or "
  | " | "
  | "\n"
  | "  \n"
  | "\n\n"
  | "\n\n---\n\n";

/** The pieces that there are, one after another. */
export const joined = (pieces: readonly (Markdown | number | "" | undefined)[], between: Between): Markdown =>
  pieces.filter((piece) => piece !== undefined).join(between) as Markdown;

/** A row of a table. */
export const markdownRow = (cells: readonly Markdown[]): Markdown => markdown`| ${joined(cells, " | ")} |`;

/** Below a column's header; the second sets it to the right. */
export const RULE: Markdown = markdown`---`;
export const RULE_RIGHT: Markdown = markdown`---:`;

/** The line below a table's header. */
export const columnRule = (columns: number): Markdown => `${"|---".repeat(columns)}|` as Markdown;

/** A uri as the target of a link or a picture, which it cannot end: no blank, bracket or control is left in it. */
export const target = (uri: string): Markdown =>
  uri.replace(/[\u0000-\u0020()<>\\\u007f-\u00a0\p{Cs}]/gu, encoded) as Markdown;

const encoded = (char: string): string =>
  /\p{Cs}/u.test(char) ? "%EF%BF%BD" : [...new TextEncoder().encode(char)].map(percent).join("");

const percent = (byte: number): string => `%${byte.toString(16).toUpperCase().padStart(2, "0")}`;

/** What stands before a place between two blocks, and what behind it. */
export const cutAt = (text: Markdown, at: number): readonly [Markdown, Markdown] => [
  text.slice(0, at) as Markdown,
  text.slice(at) as Markdown,
];

export const trimmedMarkdown = (text: Markdown): Markdown => text.trim() as Markdown;

/** A text of the program's own that is written in Markdown, like a description in a schema. Never one from a file. */
export const ownMarkdown = (text: string): Markdown => text as Markdown;
