import { extentOf } from "../judge/compare";
import type { Explained } from "../judge/together";
import { shift } from "../text/span";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { figures, fixOf, fromCauses, partsFirst, total } from "./from-causes";

export default documentCheck({
  code: "wrong-scale",
  title: "Millivolts typed as volts, or volts as millivolts",
  severity: "warning",
  scope: "document",
  why: "Many meters show a drop in whole millivolts. Typed under a header in volts they are a thousand times too high, and no diode range shows that; volts under a header in millivolts look like shorts on every pin.",
  remedy: "Write the unit beside the readings, or correct the one in the header.",
  settledBy: "later-reading-of-each-pin",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check U14

| Pin | Reading (V) |
|-----|-------------|
| 1   | 571         |
        ^^^ wrong-scale: 5 readings of 312 V to 571 V
| 2   | 553         |
| 3   | 568         |
| 4   | 551         |
| 7   | 0           |
| 14  | 312         |
`),
        fixes: [
          {
            title: "Write the 5 readings in millivolts",
            makes: `
 |-----|-------------|
-| 1   | 571         |
-| 2   | 553         |
-| 3   | 568         |
-| 4   | 551         |
+| 1   | 571 mV      |
+| 2   | 553 mV      |
+| 3   | 568 mV      |
+| 4   | 551 mV      |
 | 7   | 0           |
-| 14  | 312         |
+| 14  | 312 mV      |
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check U14

| Pin | Reading (mV) |
|-----|--------------|
| 1   | 571          |
| 2   | 553          |
| 7   | 1            |
| 14  | 312          |
`),
    ],
  },
  run: (input) =>
    fromCauses(input, ["scale"], ({ cause, parts, table }, start) => {
      const explained = parts.flatMap((part) => part.explained);
      const values = explained.map(({ reading }) => extentOf(reading.value)?.low ?? Number.NaN);
      const small = cause.factor < 1;
      const all = total(parts, ({ of }) => of);
      const fits = total(parts, (part) => part.fits);
      const unit = small ? "mV" : "V";
      const edits = explained.flatMap((one) => editTo(unit, one, table, start));
      const words = small ? "millivolts" : "volts";
      return {
        fact: `${partsFirst(parts)}: ${explained.length} readings of ${figures(values, "V")}; ${table.kind.judgedBy === "level" || table.kind.judgedBy === "supply" ? "no supply of the board is so high" : `a drop is ${small ? "at most 3.3 V" : "rarely below 0.1 V"}`}.`,
        cause: `In ${words} ${fits} of ${all} fit.`,
        step: `Write the unit: ${words}.`,
        ...(edits.length === explained.length
          ? { fix: { title: `Write the ${edits.length} readings in ${words}`, edits } }
          : {}),
      };
    }),
  fixes: { writeUnit: fixOf },
});

/** The figure as typed with the unit that was meant. */
function editTo(
  unit: string,
  { reading }: Explained,
  {
    source,
  }: {
    source: {
      rows: readonly {
        cells: readonly { span: { start: number; end: number }; outer: { start: number; end: number } }[];
      }[];
    };
  },
  start: number,
) {
  const figure = /^[~\s]*[+\u2212-]?[\d.,]+/.exec(reading.value.typed)?.[0];
  const cell = source.rows[reading.row]?.cells.find(({ span }) => span.start === reading.cell.span.start);
  if (!figure || !cell) return [];
  const { outer } = cell;
  return [
    { span: shift(outer, start), newText: ` ${figure.trim()} ${unit} `.padEnd(outer.end - outer.start) },
  ];
}
