// Text that goes to a terminal: a type of its own, so that a text which nobody has made safe does not compile where one is
// written to. It is made in no other way than here: what comes from anywhere by `visible` and its kin, our own words by `terminal`.

declare const SHOWN: unique symbol;

/** Text that sends no command to the terminal it is shown on, but what is ours. */
export type TerminalText = string & { readonly [SHOWN]: true };

/** Text from anywhere on one line: control characters as pictures (U+2400 and on) or as a replacement character. */
export const visible = (text: string): TerminalText =>
  text
    .replace(/[\u0000-\u001f]/g, picture)
    .replace(/\u007f/g, "\u2421")
    .replace(
      /[\u0080-\u009f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\u2028\u2029]/g,
      "\ufffd",
    ) as TerminalText;

const picture = (control: string): string => String.fromCharCode(0x2400 + control.charCodeAt(0));

/** The same of several lines. */
export const visibleLines = (text: string): TerminalText =>
  text.split("\n").map(visible).join("\n") as TerminalText;

/** A file's text, as a program may read it on: line ends, tabs and marks of direction stay. */
export const visibleFile = (text: string): TerminalText =>
  text
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]|\r(?!\n)/g, picture)
    .replace(/[\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g, "\ufffd") as TerminalText;

/** Our own words as they stand, colours and all, with shown text in their gaps: terminal`${visible(path)}: not there` */
export const terminal = (
  words: TemplateStringsArray,
  ...gaps: readonly (TerminalText | number | "")[]
): TerminalText => String.raw({ raw: words }, ...gaps) as TerminalText;

export const joinedShown = (
  pieces: readonly TerminalText[],
  between: "" | " " | "\n" | "\n\n",
): TerminalText => pieces.join(between) as TerminalText;

export const trimmedEnd = (text: TerminalText): TerminalText => text.trimEnd() as TerminalText;

/** A text of the program's own. Never one from a file. */
export const ownShown = (text: string): TerminalText => text as TerminalText;
