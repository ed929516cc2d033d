import { defined } from "../base/defined";
import type { Row } from "../syntax/tables";
import { blockCheck, type Fix } from "./check";
import { exampleLog } from "./example-board";

export default blockCheck({
  code: "several-pins",
  title: "Several pins in one cell",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "A reading is of one pin. Of `1,2` or `3-4` the first would be taken and the others would stay without a reading, although the log looks as if they had one.",
  remedy: "Give each pin a row of its own, with what was read there.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check

| Ref | Pin  | Reading |
|-----|------|---------|
| U14 | 1,3  | 0.58    |
        ^^^ several-pins: "1,3" names 2 pins, and only pin 1 is used
| U14 | 9-11 | 0.57    |
        ^^^^ several-pins: "9-11" names 3 pins, and only pin 9 is used
`),
        fixes: [
          {
            title: "Write 2 rows, one a pin, with this reading",
            makes: `
 |-----|------|---------|
-| U14 | 1,3  | 0.58    |
+| U14 | 1    | 0.58    |
+| U14 | 3    | 0.58    |
 | U14 | 9-11 | 0.57    |
`,
          },
          {
            title: "Write 3 rows, one a pin, with this reading",
            makes: `
 | U14 | 1,3  | 0.58    |
-| U14 | 9-11 | 0.57    |
+| U14 | 9    | 0.57    |
+| U14 | 10   | 0.57    |
+| U14 | 11   | 0.57    |
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Pin      | Reading |
|-----|----------|---------|
| U14 | 1        | 0.58    |
| U14 | pin 3    | 0.57    |
| U14 | 14 (VCC) | 0.31    |
`),
    ],
  },
  *run({ block }) {
    for (const table of block.tables) {
      // Elsewhere two pins are the two ends of what was measured.
      if (table.kind.place !== "pin") continue;
      for (const { index, cells } of table.rows) {
        const pin = cells.pin;
        const pins = pin && severalPins(pin.text);
        const row = table.source.rows[index];
        if (!pin || !pins || !row) continue;
        yield defined({
          span: pin.span,
          fact: `"${pin.text}" names ${pins.length} pins, and only pin ${pins[0]} is used.`,
          step: "Give each pin a row of its own.",
          data: pins.length <= MOST ? data(row, pin.span.start, pins) : undefined,
        });
      }
    }
  },
  fixes: {
    rowForEachPin(finding, { text }): Fix[] {
      const found = finding.data as ReturnType<typeof data> | undefined;
      if (!found) return [];
      const start = finding.span.start - found.before;
      const end = start + found.length;
      const [ahead, behind] = [text.slice(start, finding.span.start), text.slice(finding.span.end, end)];
      const eol = /^[^\r\n]*(\r\n|\r|\n)/.exec(text.slice(end))?.[1] ?? "\n";
      const width = finding.span.end - finding.span.start;
      const newText = found.pins.map((pin) => `${ahead}${pin.padEnd(width)}${behind}`).join(eol);
      return [
        {
          title: `Write ${found.pins.length} rows, one a pin, with this reading`,
          edits: [{ span: { start, end }, newText }],
          preferred: true,
          certain: true,
        },
      ];
    },
  },
});

/** Rows nobody would want written at once. */
const MOST = 40;

const data = ({ span }: Row, pinAt: number, pins: readonly string[]) => ({
  before: pinAt - span.start,
  length: span.end - span.start,
  pins,
});

/** "1,2", "3-5", "1 & 2, 4"; undefined for one pin, a name, or a range that runs backwards. */
function severalPins(typed: string): readonly string[] | undefined {
  const words = typed.replace(/^\s*pins?\s*/i, "").trim();
  const NUMBER = "\\d{1,3}(?:\\s*(?:-|–|\\.\\.|to)\\s*\\d{1,3})?";
  if (!new RegExp(`^${NUMBER}(?:\\s*(?:,|;|/|&|\\+|\\band\\b)\\s*${NUMBER})*$`, "i").test(words))
    return undefined;
  const pins = new Set<string>();
  for (const [, low = "", high] of words.matchAll(/(\d{1,3})(?:\s*(?:-|–|\.\.|to)\s*(\d{1,3}))?/gi)) {
    const last = Number(high ?? low);
    if (last < Number(low)) return undefined;
    for (let pin = Number(low); pin <= last; pin += 1) pins.add(String(pin));
  }
  return pins.size > 1 ? [...pins] : undefined;
}
