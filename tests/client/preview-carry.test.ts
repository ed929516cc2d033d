import fc from "fast-check";
import { expect, test } from "vitest";
import { carried } from "../../client/src/preview/carry";
import type { Preview, PreviewMark } from "../../server/src/protocol/custom-requests/preview";

const LOG = `---
mendlog: 1
board: x
---

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 1.42    |
| U14 | 2   | 0.58    |
| U14 | 3   | 0.57    |

## Logic levels

| Ref | Pin | Reading |
|-----|-----|---------|
| U15 | 1   | 4.2     |
`;

/** An answer with a mark in every row. */
function answerTo(text: string): Preview {
  const lines = text.split("\n");
  const tables = lines.flatMap((line, at) => {
    if (!line.startsWith("| Ref")) return [];
    const marks: PreviewMark[] = [];
    for (let row = at + 2; lines[row]?.startsWith("|"); row++)
      marks.push({
        line: row,
        column: 2,
        text: lines[row]?.split("|")[3]?.trim() ?? "",
        verdict: "within-limits",
        glyph: "○",
        words: "Within limits",
        sentence: `${row}`,
      });
    return [{ heading: at - 2, line: at, marks, pictures: [] }];
  });
  return { version: 1, tables, findings: [{ line: 9, severity: "warning", message: "far off" }] };
}

const readingsAfter = (now: string): string[] | undefined =>
  carried(answerTo(LOG), LOG, now)?.tables.flatMap(({ marks }) => marks.map(({ text }) => text));

test.each([
  ["nothing", LOG, ["1.42", "0.58", "0.57", "4.2"]],
  ["a reading: that row's mark goes", LOG.replace("0.58", "0.59"), ["1.42", "0.57", "4.2"]],
  [
    "a row put in between",
    LOG.replace("| U14 | 3", "| U14 | 9   | 1 |\n| U14 | 3"),
    ["1.42", "0.58", "0.57", "4.2"],
  ],
  ["a row taken away", LOG.replace("| U14 | 2   | 0.58    |\n", ""), ["1.42", "0.57", "4.2"]],
  ["a header row: its table's go", LOG.replace("Pin | Reading |", "Pin | Reading (mV) |"), ["4.2"]],
  ["a heading: its table's go", LOG.replace("## Diode check", "## Resistance"), ["4.2"]],
  [
    "words in front of everything",
    LOG.replace("## Diode", "Words.\n\n## Diode"),
    ["1.42", "0.58", "0.57", "4.2"],
  ],
  ["a table cut in two", LOG.replace("| U14 | 3", "\n## Coils\n\n| U14 | 3"), ["1.42", "0.58", "4.2"]],
  ["the board: everything goes", LOG.replace("board: x", "board: y"), undefined],
  ["the closing fence", LOG.replace("board: x\n---", "board: x\n--"), undefined],
  ["everything", "", undefined],
])("typing changes %s", (_, now, left) => {
  expect(readingsAfter(now)).toEqual(left);
});

test("findings move with their lines", () => {
  const now = LOG.replace("## Diode", "Words.\n\n## Diode");
  expect(carried(answerTo(LOG), LOG, now)?.findings).toEqual([
    { line: 11, severity: "warning", message: "far off" },
  ]);
});

test("no mark ever comes to stand in another row than it was given", () => {
  const edit = fc.record({
    at: fc.nat(LOG.length),
    length: fc.nat(40),
    text: fc.oneof(
      fc.stringMatching(/^[|\-\n U0-9.#]{0,12}$/),
      fc.constantFrom("\n", "| U1 | 1 | 1 |\n", "\n\n## H\n\n"),
    ),
  });
  fc.assert(
    fc.property(edit, ({ at, length, text }) => {
      const now = LOG.slice(0, at) + text + LOG.slice(at + length);
      const old = LOG.split("\n");
      const lines = now.split("\n");
      for (const { line, heading, marks } of carried(answerTo(LOG), LOG, now)?.tables ?? []) {
        expect(lines[line]).toMatch(/^\| Ref/);
        if (heading !== undefined) expect(lines[heading]).toMatch(/^## /);
        for (const mark of marks) expect(lines[mark.line]).toBe(old[Number(mark.sentence)]);
      }
    }),
    { numRuns: 500 },
  );
});
