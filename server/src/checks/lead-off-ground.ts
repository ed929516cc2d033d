import type { Explained } from "../judge/together";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromCauses, refsOfParts, total } from "./from-causes";

export default documentCheck({
  code: "lead-off-ground",
  title: "Every pin open: the lead was not on ground",
  severity: "warning",
  scope: "document",
  why: "When a chip's ground pin reads open together with all the others, the chip was not measured against ground at all: the lead slipped off, was on lacquer or on the wrong pin, or the chip is out of its socket. Fourteen findings would each accuse a pin. The same goes for the like pins of many parts, each open where it should conduct: parts do not all fail on one day. Under power a lead that touches nothing shows a little everywhere, ground too; one on another place shows ground and the supply off by the same voltage.",
  remedy:
    "Put the lead on the board's ground, touch a second ground point with the other to see that it reads next to nothing, press the chip into its socket, and read the pins again.",
  settledBy: "later-reading-of-each-pin",
  examples: {
    bad: [
      exampleLog(`## Diode check U14

| Pin | Reading |
|-----|---------|
| 1   | OL      |
        ^^ lead-off-ground: 5 of 5 pins read open, ground (pin 7) too
| 2   | OL      |
| 3   | OL      |
| 7   | OL      |
| 14  | OL      |
`),
      exampleLog(`## Logic states U14

| Pin | State    |
|-----|----------|
| 1   | floating |
        ^^^^^^^^ lead-off-ground: 5 of 5 pins show nothing, ground (pin 7) too
| 2   | floating |
| 3   | floating |
| 7   | floating |
| 14  | floating |
`),
      exampleLog(`## Logic levels U14

| Pin | Reading |
|-----|---------|
| 1   | -0.81   |
        ^^^^^ lead-off-ground: ground (pin 7) reads -3.12, and the supply (pin 14) 1.89
| 2   | -2.95   |
| 7   | -3.12   |
| 14  | 1.89    |
`),
    ],
    good: [
      exampleLog(`## Logic levels U14

| Pin | Reading |
|-----|---------|
| 1   | 0.21    |
| 2   | 3.4     |
| 7   | 0.00    |
| 14  | 5.01    |
`),
      exampleLog(`## Diode check U14

| Pin | Reading |
|-----|---------|
| 1   | 0.571   |
| 2   | 0.553   |
| 3   | 0.568   |
| 7   | 0.001   |
| 14  | 0.312   |
`),
    ],
  },
  run: (input) =>
    fromCauses(input, ["open", "lead-on-pin"], ({ cause, parts, table }) => {
      const [first] = parts;
      if (!first) return undefined;
      const ohms = table.kind.judgedBy === "ground";
      const limit = ohms ? "5 Ω" : "50 mV";
      if (cause.kind === "lead-on-pin") {
        const { ground } = first;
        return {
          fact: `${first.ref}: ground (pin ${ground?.pin}) reads ${ground?.reading.value.typed}, limit ${limit}, and pin ${cause.pin} reads like ground.`,
          cause: `The lead was on pin ${cause.pin}, which is not this chip's ground.`,
          step: "Put it on the board's ground and read the pins again.",
        };
      }
      const power = first.ground ?? first.supply;
      const open = total(parts, ({ fits }) => fits);
      const all = total(parts, ({ of }) => of);
      // A logic probe has its own way of showing nothing, and its own two clips.
      if (table.kind.judgedBy === "state")
        return {
          fact: `${refsOfParts(parts)}: ${open} of ${all} pins show nothing${power ? `, ${power === first.ground ? "ground" : "supply"} (${parts.length > 1 ? `${power.ref} ` : ""}pin ${power.pin}) too` : ""}.`,
          cause: "The probe was without its ground or its supply.",
          step: "Clip it to the board's ground and +5 V, try the tip on both, and read the pins again.",
        };
      if (table.kind.judgedBy === "level") {
        const { ground, supply } = parts.find((part) => part.ground) ?? first;
        const at = (one: Explained | undefined): string =>
          one ? `${parts.length > 1 ? `${one.ref} ` : ""}pin ${one.pin}` : "";
        return {
          fact: `${refsOfParts(parts)}: ground (${at(ground)}) reads ${ground?.reading.value.typed}, and the supply (${at(supply)}) ${supply?.reading.value.typed}.`,
          cause: "The lead was not on ground.",
          step: "Put it on the board's ground, check it on a second ground point, and read again.",
        };
      }
      const which = power
        ? `, ${first.ground ? "ground" : "supply"} (${parts.length > 1 ? `${power.ref} ` : ""}pin ${power.pin}) too${first.ground ? `, limit ${limit}` : ""}`
        : "";
      return {
        fact: `${refsOfParts(parts)}: ${open} of ${all} pins read open${which}.`,
        cause: `The lead was not on ground${power ? (parts.length === 1 && !first.inLine ? ", or the chip is out of its socket" : "") : ", or the two leads were exchanged"}.`,
        step: "Put the lead on the board's ground, check it on a second ground point, and read again.",
      };
    }),
  noFix: "The pins have to be read again.",
});
