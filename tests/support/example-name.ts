// What a check's example is about, in the words that stand in it: no number says as much when one fails.
import { type BadExample, textOf } from "../../server/src/checks/example";
import { slice } from "../../server/src/text/span";
import { readFixture } from "./workspace";

const plain = (words: string): string => words.replace(/\s+/g, " ").trim();

/** What is marked first with the code, and what of the message is shown there: `1.42 (its clamp is likely open)`. */
export function nameOfBad(code: string, example: BadExample): string {
  const marks = readFixture(textOf(example)).flatMap(({ marked: { text, marks } }) =>
    marks.map((mark) => ({ ...mark, words: plain(slice(text, mark.span)) || "a blank" })),
  );
  const first = marks.find((mark) => mark.code === code) ?? marks[0];
  if (!first) return nameOfGood(textOf(example));
  return first.message ? `${first.words} (${first.message})` : first.words;
}

/** The last heading and the last line of what is left alone: `| U14 | 1 | 0.58 | (Diode check)`. */
export function nameOfGood(example: string): string {
  const lines = example.split(/\r?\n/).map(plain);
  const heading = lines.findLast((line) => /^#+ /.test(line))?.replace(/^#+ /, "");
  const last = lines.findLast((line) => line !== "" && !/^(?:#+ |---$|\|[-|: ]+\|$)/.test(line));
  return [last, heading && `(${heading})`].filter(Boolean).join(" ") || "nothing";
}
