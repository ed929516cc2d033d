import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { fixOf, fromCauses, movedRows, orWords, partsFirst, refsOfParts, total } from "./from-causes";

export default documentCheck({
  code: "column-shifted",
  title: "A column one row off",
  severity: "warning",
  scope: "document",
  why: "A pin left out, or a column begun one row too low, puts every reading below it at the wrong pin. If ground and supply read right one row on, and nothing reads right where it is, the column slid.",
  remedy:
    "Move the readings back by the row, or read the chip again where it is not clear which pin was left out.",
  settledBy: "later-reading-of-each-pin",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check

| Pin | U14   | U15   |
|-----|-------|-------|
| 1   |       | 0.571 |
| 2   | 0.571 | 0.553 |
| 3   | 0.553 | 0.568 |
| 4   | 0.568 | 0.551 |
| 5   | 0.551 | 0.573 |
| 6   | 0.573 | 0.556 |
| 7   | 0.556 | 0.001 |
        ^^^^^ column-shifted: 13 of 13 one row further up
| 8   | 0.001 | 0.552 |
| 9   | 0.552 | 0.569 |
| 10  | 0.569 | 0.555 |
| 11  | 0.555 | 0.572 |
| 12  | 0.572 | 0.550 |
| 13  | 0.550 | 0.002 |
| 14  | 0.567 | 0.312 |
`),
        fixes: [
          {
            title: "Move the readings of U14 up by one row",
            makes: `
 |-----|-------|-------|
-| 1   |       | 0.571 |
-| 2   | 0.571 | 0.553 |
-| 3   | 0.553 | 0.568 |
-| 4   | 0.568 | 0.551 |
-| 5   | 0.551 | 0.573 |
-| 6   | 0.573 | 0.556 |
-| 7   | 0.556 | 0.001 |
-| 8   | 0.001 | 0.552 |
-| 9   | 0.552 | 0.569 |
-| 10  | 0.569 | 0.555 |
-| 11  | 0.555 | 0.572 |
-| 12  | 0.572 | 0.550 |
-| 13  | 0.550 | 0.002 |
-| 14  | 0.567 | 0.312 |
+| 1   | 0.571 | 0.571 |
+| 2   | 0.553 | 0.553 |
+| 3   | 0.568 | 0.568 |
+| 4   | 0.551 | 0.551 |
+| 5   | 0.573 | 0.573 |
+| 6   | 0.556 | 0.556 |
+| 7   | 0.001 | 0.001 |
+| 8   | 0.552 | 0.552 |
+| 9   | 0.569 | 0.569 |
+| 10  | 0.555 | 0.555 |
+| 11  | 0.572 | 0.572 |
+| 12  | 0.550 | 0.550 |
+| 13  | 0.567 | 0.002 |
+| 14  |       | 0.312 |
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check U14

| Pin | Reading |
|-----|---------|
| 1   | 0.571   |
| 2   |         |
| 3   | 0.568   |
| 4   | 0.551   |
| 7   | 0.001   |
| 14  | 0.312   |
`),
    ],
  },
  run: (input) =>
    fromCauses(input, ["shifted"], ({ cause, parts, table, or }, start, doc) => {
      const [first] = parts;
      if (!first) return undefined;
      const names = refsOfParts(parts);
      const where = cause.by === 1 ? "further down" : "further up";
      const all = total(parts, ({ of }) => of);
      const edits = movedRows(parts, table, start, doc.text);
      const left =
        cause.by === 1 && !cause.wraps ? "A pin was left out on the way: leave its row blank." : undefined;
      return {
        fact: `${partsFirst(parts)}: ${total(parts, ({ fitsAsTyped }) => fitsAsTyped)} of ${all} readings fit where they are, ${total(parts, ({ fits }) => fits)} of ${all} one row ${where}.`,
        cause: "The column slid by a row.",
        step: [`Move it back, or read ${parts.length > 1 ? "them" : "the chip"} again.`, left]
          .filter(Boolean)
          .join(" "),
        more: orWords(or),
        ...(edits.length > 0
          ? {
              fix: {
                title: `Move the readings of ${names} ${cause.by === 1 ? "down" : "up"} by one row`,
                edits,
              },
            }
          : {}),
      };
    }),
  fixes: { moveReadings: fixOf },
});
