import type { TextEdit } from "../text/edits";
import { type Span, span } from "../text/span";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

/** What the fix needs to know; absent for a comment that is never closed, of which nobody can tell where it was to end. */
export interface UnusedSuppression {
  readonly comment: Span;
  /** True where none of the codes in the comment hides anything. */
  readonly isWhole: boolean;
}

/** Filled in by the runner, which alone knows what a suppression hid. */
export default documentCheck({
  code: "unused-suppression",
  title: "A suppression that hides nothing",
  severity: "hint",
  scope: "document",
  why: "A comment that once silenced a finding and no longer does will silence the next, different one.",
  remedy: "Remove the comment, or correct the code it names.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check

<!-- mendlog-allow diode-out-of-window: seen before -->
                   ^^^^^^^^^^^^^^^^^^^ unused-suppression: hides nothing

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
`),
        fixes: [
          {
            title: "Remove the comment",
            makes: `

-<!-- mendlog-allow diode-out-of-window: seen before -->
-
 | Ref | Pin | Reading |
`,
          },
        ],
      },
      {
        text: exampleLog(`## Diode check

<!-- mendlog-allow diode-out-of-windwo -->
                   ^^^^^^^^^^^^^^^^^^^ unused-suppression: no check
`),
        fixes: [
          {
            title: "Remove the comment",
            makes: `

-<!-- mendlog-allow diode-out-of-windwo -->
`,
          },
        ],
      },
      {
        text: exampleLog(`## Diode check

<!-- mendlog-allow diode-out-of-window, matrix-dead: the clamp diode is off board -->
                                        ^^^^^^^^^^^ unused-suppression: hides nothing

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 1.42    |
`),
        fixes: [
          {
            title: "Take matrix-dead out of the comment",
            makes: `

-<!-- mendlog-allow diode-out-of-window, matrix-dead: the clamp diode is off board -->
+<!-- mendlog-allow diode-out-of-window: the clamp diode is off board -->

`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check

<!-- mendlog-allow diode-out-of-window: the clamp diode is off board -->

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 1.42    |
`),
    ],
  },
  run: () => [],
  // Not preferred: a reason written behind the code goes with the comment, so somebody is to look.
  fixes: {
    removeComment({ data }, { text }) {
      const { comment, isWhole } = (data ?? {}) as Partial<UnusedSuppression>;
      return comment && isWhole
        ? [{ title: "Remove the comment", edits: [withoutComment(text, comment)] }]
        : [];
    },
    takeCodeOut({ data, span: whole }, { text }) {
      const { comment, isWhole } = (data ?? {}) as Partial<UnusedSuppression>;
      const title = `Take ${text.slice(whole.start, whole.end)} out of the comment`;
      return comment && !isWhole ? [{ title, edits: [withoutCode(text, whole)] }] : [];
    },
  },
});

/**
 * With its line where nothing else stands on it. Between two empty lines one of them goes too; between two lines of
 * text an empty one stays, as they would else be read as one paragraph, or the upper one as a heading.
 */
function withoutComment(text: string, { start, end }: Span): TextEdit {
  const before = /(?:^|\n)([ \t]*)$/.exec(text.slice(0, start));
  const after = /^[ \t]*(?:(\r?\n)|$)/.exec(text.slice(end));
  if (!before || !after) return { span: span(start, end), newText: "" };
  const line = span(start - (before[1] ?? "").length, end + after[0].length);
  const above = line.start === 0 || /\n[ \t]*\r?\n$/.test(text.slice(0, line.start));
  const below = /^[ \t]*(?:\r?\n|$)/.exec(text.slice(line.end));
  if (above && below) return { span: span(line.start, line.end + below[0].length), newText: "" };
  return { span: line, newText: above || below ? "" : (after[1] ?? "") };
}

/** With what parts it from the next code, or from the one before where it is the last. */
function withoutCode(text: string, { start, end }: Span): TextEdit {
  const next = /^[\s,]+(?=[^\s,:-])/.exec(text.slice(end));
  let last = start;
  while (last > 0 && /[\s,]/.test(text[last - 1] ?? "")) last--;
  return next
    ? { span: span(start, end + next[0].length), newText: "" }
    : { span: span(last, end), newText: "" };
}
