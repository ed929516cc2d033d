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
${"^".repeat(80)} section-not-read: 0.3 million characters
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
    for (const { start, block } of doc.blocks) {
      if (!block.source.tooLarge) continue;
      const size = block.source.text.length;
      const at = start + longest(block.source.text);
      yield {
        span: { start: at, end: Math.min(at + 80, start + size) },
        message: `This section is ${(size / 1e6).toFixed(1)} million characters long, too large to read while you type, so nothing in it is checked. Break it up with headings, or move the data to a file of its own.`,
      };
    }
  },
  noFix: "Where to cut is the writer's choice.",
});

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
