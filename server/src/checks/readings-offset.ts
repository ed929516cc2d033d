import { extentOf } from "../judge/compare";
import { formatValue } from "../quantity/format-value";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { figures, fromCauses, refsOfParts, total } from "./from-causes";

export default documentCheck({
  code: "readings-offset",
  title: "The same figure, or the same too much, on every pin",
  severity: "warning",
  scope: "document",
  why: "Ground, supply and signal pins of a chip never read the same. One figure everywhere, or the same excess on ground as on all others, comes from the range, from the leads, from charge left on the board, from a low meter battery, or from a supply that is shorted.",
  remedy:
    "Hold the leads together: the diode range then reads next to nothing. Look at the range and the battery of the meter, discharge the board's capacitors through a resistor, measure the supply's resistance to ground, and read the pins again.",
  settledBy: "later-reading-of-each-pin",
  examples: {
    bad: [
      exampleLog(`## Diode check U14

| Pin | Reading |
|-----|---------|
| 1   | 0.203   |
        ^^^^^ readings-offset: 7 of 7 pins read 0.201 V to 0.205 V
| 2   | 0.201   |
| 3   | 0.204   |
| 4   | 0.202   |
| 5   | 0.203   |
| 7   | 0.205   |
| 14  | 0.201   |
`),
    ],
    good: [
      exampleLog(`## Diode check U14

| Pin | Reading |
|-----|---------|
| 1   | 0.560   |
| 2   | 0.561   |
| 3   | 0.560   |
| 4   | 0.561   |
| 7   | 0.001   |
| 14  | 0.410   |
`),
    ],
  },
  run: (input) =>
    fromCauses(input, ["offset"], ({ cause, parts }) => {
      const [first] = parts;
      if (!first) return undefined;
      const names = refsOfParts(parts);
      const fits = total(parts, (part) => part.fits);
      const all = total(parts, ({ of }) => of);
      const { ground } = first;
      const pin = ground ? `${parts.length > 1 ? `${ground.ref} ` : ""}pin ${ground.pin}` : "";
      const next = "Hold the leads together to check the meter, discharge the board, and read again.";
      if (!cause.flat)
        return {
          fact: `${names}: ground (${pin}) reads ${ground?.reading.value.typed}, limit 50 mV; less ${formatValue(cause.by, "V")}, ${fits} of ${all} readings fit.`,
          cause: "Poor contact of the lead on ground, the range, or charge on the board.",
          step: next,
        };
      const values = first.explained.map(({ reading }) => extentOf(reading.value)?.low ?? Number.NaN);
      return {
        fact: `${names}: ${fits} of ${all} pins read ${figures(values, "V") ?? "alike"}${ground ? `, ground (${pin}) too, limit 50 mV` : ""}.`,
        cause: "The range, charge on the board, a low meter battery or a shorted supply.",
        step: next,
      };
    }),
  noFix: "The pins have to be read again.",
});
