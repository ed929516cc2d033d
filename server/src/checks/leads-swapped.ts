import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromCauses, refsOfParts, total } from "./from-causes";

export default documentCheck({
  code: "leads-swapped",
  title: "Leads swapped",
  severity: "warning",
  scope: "document",
  why: "With black on ground and red on the pin, the diodes of a chip block: ground still reads next to nothing, and everything else open or above a volt. Rails that are all as high as they should be, and all with the other sign, were read with the leads the other way round.",
  remedy:
    "Diode range: red on ground, black on the pin. Volts: black on ground, red on the rail. Then read again; what was read stays in the log.",
  settledBy: "later-reading-of-each-pin",
  examples: {
    bad: [
      exampleLog(`## Diode check

| Pin | U14   | U15   |
|-----|-------|-------|
| 1   | OL    | OL    |
        ^^ leads-swapped: U14 and U15: 14 of 14 readings
| 2   | 1.64  | 1.62  |
| 3   | OL    | OL    |
| 4   | 1.61  | 1.63  |
| 5   | OL    | OL    |
| 7   | 0.001 | 0.001 |
| 14  | 1.28  | 1.27  |
`),
      exampleLog(`## Supply rails

| Rail | DC    |
|------|-------|
| +5V  | -5.02 |
         ^^^^^ leads-swapped: 2 of 2 rails
| +24V | -24.3 |
`),
      exampleLog(`## Logic levels U14

| Pin | Voltage |
|-----|---------|
| 1   | -3.41   |
        ^^^^^ leads-swapped: U14: 4 of 5 voltages are below 0 V
| 2   | -0.12   |
| 3   | -0.14   |
| 7   | 0.00    |
| 14  | -5.02   |
`),
    ],
    good: [
      exampleLog(`## Supply rails

| Rail | DC   |
|------|------|
| +5V  | 5.02 |
| +24V | 24.3 |
`),
    ],
  },
  run: (input) =>
    fromCauses(input, ["swapped"], ({ cause, parts, table }) => {
      const [first] = parts;
      const [one] = first?.explained ?? [];
      if (!first || !one) return undefined;
      const all = total(parts, ({ of }) => of);
      const fits = total(parts, (part) => part.fits);
      const typed = one.reading.value.typed;
      if (one.ref === undefined)
        return {
          fact: `${fits} of ${all} rails read their voltage with the other sign: ${one.reading.subject.rail?.text} reads ${typed}.`,
          cause: "The leads were swapped.",
          step: "Put black on ground and read the rails again.",
        };
      if (table.kind.judgedBy === "level") {
        const below = total(parts, ({ explained }) => explained.length);
        return {
          fact: `${refsOfParts(parts)}: ${below} of ${all} voltages are below 0 V, ${one.ref}${one.pin === undefined ? "" : ` pin ${one.pin}`} ${typed}.`,
          cause: "The leads were swapped.",
          step: "Put black on ground and red on the pin, and read the pins again.",
        };
      }
      return {
        fact:
          cause.shows === "below-zero"
            ? `${refsOfParts(parts)}: ${first.explained.length} of ${all} drops are below 0 V, pin ${one.pin} ${typed}.`
            : `${refsOfParts(parts)}: ${fits} of ${all} readings are open or above 0.9 V, but ground is in order.`,
        cause: "The leads were swapped.",
        step: "Put red on ground and black on the pin, and read the pins again.",
      };
    }),
  noFix: "The places have to be read again.",
});
