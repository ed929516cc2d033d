import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { countWords, fixOf, fromCauses, movedRows, orWords, refsOfParts, total } from "./from-causes";

export default documentCheck({
  code: "pins-miscounted",
  title: "Pins counted from the wrong end or corner",
  severity: "warning",
  scope: "document",
  why: "From the solder side, or with the notch the other way, every pin gets another's number. Not every chip has its ground and supply in the corners. What reads as ground and as supply shows how the pins were counted.",
  remedy:
    "Find the notch and the number on the chip, or the mark at pin 1 of a header, then put the readings where they belong or read the chip again. The device's own pins say which is ground.",
  settledBy: "later-reading-of-each-pin",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check U14

| Pin | Reading |
|-----|---------|
| 1   | 0.312   |
        ^^^^^ pins-miscounted: U14: 10 of 14 readings fit as numbered, 14 of 14 counted from the other end
| 2   | 0.567   |
| 3   | 0.550   |
| 4   | 0.572   |
| 5   | 0.555   |
| 6   | 0.569   |
| 7   | 0.552   |
| 8   | 0.001   |
| 9   | 0.556   |
| 10  | 0.573   |
| 11  | 0.551   |
| 12  | 0.568   |
| 13  | 0.553   |
| 14  | 0.571   |
`),
        fixes: [
          {
            title: "Put the readings of U14 at the pins counted from the other end",
            makes: `
 |-----|---------|
-| 1   | 0.312   |
-| 2   | 0.567   |
-| 3   | 0.550   |
-| 4   | 0.572   |
-| 5   | 0.555   |
-| 6   | 0.569   |
-| 7   | 0.552   |
-| 8   | 0.001   |
-| 9   | 0.556   |
-| 10  | 0.573   |
-| 11  | 0.551   |
-| 12  | 0.568   |
-| 13  | 0.553   |
-| 14  | 0.571   |
+| 1   | 0.571   |
+| 2   | 0.553   |
+| 3   | 0.568   |
+| 4   | 0.551   |
+| 5   | 0.573   |
+| 6   | 0.556   |
+| 7   | 0.001   |
+| 8   | 0.552   |
+| 9   | 0.569   |
+| 10  | 0.555   |
+| 11  | 0.572   |
+| 12  | 0.550   |
+| 13  | 0.567   |
+| 14  | 0.312   |
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
| 2   | 0.553   |
| 6   | 0.556   |
| 7   | 0.001   |
| 8   | 0.552   |
| 14  | 0.312   |
`),
    ],
  },
  run: (input) =>
    fromCauses(input, ["counted"], ({ cause, parts, table, or }, start, doc) => {
      const [first] = parts;
      if (!first) return undefined;
      const how = countWords(cause.by);
      const all = total(parts, ({ of }) => of);
      const { ground } = first;
      const at = ground
        ? `Ground (${parts.length > 1 ? `${ground.ref} ` : ""}pin ${ground.pin}) reads ${ground.reading.value.typed} as numbered.`
        : undefined;
      const edits = movedRows(parts, table, start, doc.text);
      return {
        fact: `${refsOfParts(parts)}: ${total(parts, ({ fitsAsTyped }) => fitsAsTyped)} of ${all} readings fit as numbered, ${total(parts, ({ fits }) => fits)} of ${all} counted ${how}.`,
        cause:
          cause.by.way === "further-on" ? `${COUNTED} Another type may have its ground elsewhere.` : COUNTED,
        step: `${first.inLine ? "Find the mark at pin 1" : "Find the notch"}${cause.by.way === "further-on" ? " and check the number on the chip" : ""}, then ${edits.length > 0 ? "move the readings" : `read ${first.inLine ? first.ref : "the chip"} again`}.`,
        more: [at, orWords(or)].filter(Boolean).join(" ") || undefined,
        ...(edits.length > 0
          ? { fix: { title: `Put the readings of ${refsOfParts(parts)} at the pins counted ${how}`, edits } }
          : {}),
      };
    }),
  fixes: { moveReadings: fixOf },
});

const COUNTED = "The pins were counted the wrong way.";
