// HTML and SVG that the program writes: a type of its own, so that a text which nobody has made safe does not compile where
// either is wanted. It is made in no other way than here: text from a file by `html` or `cell`, our own tags by `markup`.
import { NOT_SHOWN } from "./not-shown";

declare const HTML: unique symbol;

/** HTML or SVG whose every tag is ours. */
export type Html = string & { readonly [HTML]: true };

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Text from anywhere, for element content and for attributes in double quotes alike. */
export const html = (text: string): Html =>
  text.replace(NOT_SHOWN, "\ufffd").replace(/[&<>"']/g, (mark) => ENTITIES[mark]!) as Html;

/** The same for a drawing, which is XML: it knows no more than these, and single quotes never hold an attribute of ours. */
export const xml = (text: string): Html =>
  text.replace(NOT_SHOWN, "\ufffd").replace(/[&<>"]/g, (mark) => ENTITIES[mark]!) as Html;

/** Longest run without a place to break the line, in characters: a longer one would push a table off the page. */
const LONGEST_WORD = 24;

/** Text from anywhere as element content whose long words may be broken. */
export const cell = (text: string): Html =>
  text
    .split(/(\S{25,})/u)
    .map((piece, i) => (i % 2 === 0 ? html(piece) : inPieces(piece).map(html).join("<wbr>")))
    .join("") as Html;

function inPieces(word: string): string[] {
  const letters = [...word];
  const pieces: string[] = [];
  for (let at = 0; at < letters.length; at += LONGEST_WORD)
    pieces.push(letters.slice(at, at + LONGEST_WORD).join(""));
  return pieces;
}

/** Our own tags as they stand, with HTML in their gaps: markup`<p>${html(note)}</p>` */
export const markup = (tags: TemplateStringsArray, ...gaps: readonly (Html | number | "")[]): Html =>
  String.raw({ raw: tags }, ...gaps) as Html;

/** One behind the other. */
export const joinedHtml = (pieces: readonly (Html | "")[], between: "" | " " | ", " | "\n" = ""): Html =>
  pieces.join(between) as Html;

/** A text of the program's own that is HTML, SVG or a style. Never one from a file. */
export const ownHtml = (text: string): Html => text as Html;
