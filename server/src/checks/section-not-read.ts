import { memo } from "../base/memo";
import { inBlocks } from "../log/in-blocks";
import type { ReadingBound, SyntaxBlock } from "../syntax/block";
import { growsTooFast, MAX_LAZY, MAX_LINES, MAX_MARKS, MAX_NESTING } from "../syntax/parse-bounds";
import { documentCheck } from "./check";

export default documentCheck({
  code: "section-not-read",
  title: "A section too large to read",
  severity: "warning",
  scope: "document",
  why: "A line of millions of characters, or a file that is not text at all, would hold up every keystroke. The section is left out; the rest of the log is checked as usual.",
  remedy: "Break the section up with headings, or take the pasted data out of the log and link to it.",
  examples: {
    bad: [
      // A single line past the bound; the finding stands on its first characters.
      `---
mendlog: 1
---

${"|x".repeat(150_000)}
${"^".repeat(80)} section-not-read: 300,002 characters
`,
      `---
mendlog: 1
---

${"- ".repeat(60)}U14
${"^".repeat(80)} section-not-read: more than 50 deep
`,
    ],
    good: [
      `---
mendlog: 1
---

An ordinary paragraph.
`,
    ],
  },
  *run({ doc }) {
    for (const { start, block } of notRead(doc)) {
      const size = block.source.text.length;
      const at = start + troubleIn(block.source);
      yield {
        span: { start: at, end: Math.min(at + 80, start + size) },
        ...said(block.source.limit, size),
      };
    }
  },
  noFix: "Where to cut is the writer's choice.",
});

const notRead = inBlocks(({ source }) => (source.tooLarge ? true : undefined));

function said(
  limit: ReadingBound | undefined,
  size: number,
): { readonly fact: string; readonly cause: string; readonly step: string } {
  switch (limit) {
    case "nesting":
      return {
        fact: `Lists or quotes are more than ${MAX_NESTING} deep here, so nothing in this section is checked.`,
        cause: "Reading them would hold up your typing.",
        step: "Take the list marks or quote marks out, or move the text to a file of its own.",
      };
    case "marks":
      return {
        fact: `A paragraph here has more than ${count(MAX_MARKS)} marks, or a bracket never closed, so nothing in this section is checked.`,
        cause: "Reading them would hold up your typing.",
        step: "Put the text into a code block under a heading of its own, or move it to a file of its own.",
      };
    case "lines":
      return {
        fact: `More than ${count(MAX_LINES)} lines, or ${count(MAX_LAZY)} in one entry of a list, so this section is not checked.`,
        cause: "It is too large to read while you type.",
        step: "Break it up with headings, or move the data to a file of its own.",
      };
    case "parser":
      return {
        fact: "This section could not be read, so nothing in it is checked.",
        cause: "It is probably not meant as text.",
        step: "Move it to a file of its own.",
      };
    default:
      return {
        fact: `This section is ${count(size)} characters long, so nothing in it is checked.`,
        cause: "It is too large to read while you type.",
        step: "Break it up with headings, or move the data to a file of its own.",
      };
  }
}

const count = (n: number): string => n.toLocaleString("en");

/** Offset of the line that breaks a bound; looked for once, however often the log around it is typed in. */
const troubleIn = memo(({ text }: SyntaxBlock): number => growsTooFast(text)?.at ?? longest(text));

/** Offset of the longest line: that is where the trouble mostly is. */
function longest(text: string): number {
  let best = { at: 0, length: -1 };
  for (let at = 0; at <= text.length; ) {
    const end = text.indexOf("\n", at);
    const length = (end < 0 ? text.length : end) - at;
    if (length > best.length) best = { at, length };
    if (end < 0) break;
    at = end + 1;
  }
  return best.at;
}
