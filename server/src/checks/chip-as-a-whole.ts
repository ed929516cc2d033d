import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromCauses } from "./from-causes";

export default documentCheck({
  code: "chip-as-a-whole",
  title: "A chip as a whole reads wrong",
  severity: "warning",
  scope: "document",
  why: "Where most signal pins of a chip read open or leak, its pins have one cause: its ground or supply does not reach the die, it does not sit in its socket, or it is dead. Pin by pin it looks like a dozen faults.",
  remedy:
    "Check that the lead is on ground and read a sister chip the same way. Press the chip into its socket, look at its ground and supply joints, then pull it and read it by itself. The readings disprove the chip in its place; they do not tell a dead chip from an open ground.",
  settledBy: "later-reading-of-each-pin",
  examples: {
    bad: [
      exampleLog(`## Diode check U14

| Pin | Reading |
|-----|---------|
| 1   | OL      |
        ^^ chip-as-a-whole: U14 as a whole: 6 of 6 signal pins
| 2   | OL      |
| 3   | OL      |
| 4   | OL      |
| 5   | OL      |
| 6   | OL      |
| 7   | 0.001   |
| 14  | 0.312   |
`),
    ],
    good: [
      exampleLog(`## Diode check U14

<!-- mendlog-allow diode-out-of-window: three dead pins, looked at -->

| Pin | Reading |
|-----|---------|
| 1   | OL      |
| 2   | 0.553   |
| 3   | OL      |
| 4   | 0.551   |
| 5   | OL      |
| 6   | 0.556   |
| 7   | 0.001   |
| 14  | 0.312   |
`),
    ],
  },
  run: (input) =>
    fromCauses(input, ["dead"], ({ parts }) => {
      const [part] = parts;
      if (!part?.ref) return undefined;
      const { ground, supply, explained, signals } = part;
      const power = [ground, supply].flatMap((one) => (one ? one.reading : []));
      const wrong = explained.filter(({ reading }) => !power.includes(reading));
      const open = wrong.filter(({ reading }) => reading.value.kind === "open").length;
      const read =
        ground && supply
          ? undefined
          : ground
            ? "Its supply pin was not read."
            : "Its ground pin was not read.";
      return {
        fact: `${part.ref} as a whole: ${wrong.length} of ${signals} signal pins read wrong, ${open} of them open.`,
        cause: "Its ground or supply does not reach it, it sits badly in its socket, or it is dead.",
        step: "Check the lead on ground, then its joints and socket, then pull it and read it alone.",
        more: read,
      };
    }),
  noFix: "The readings are what was measured; the fault is on the board.",
});
