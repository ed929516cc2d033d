import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "outside-expected",
  title: "A reading outside the board file's expectation",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "The board file says what a board of this type reads at this place, and this one reads something else. Where it says how the reset, the clocks and the memory back-up are built, what they should read is computed from that.",
  remedy:
    "Measure again, then check the part and what else is on its net. Where the board file is wrong, correct it there with its source: every later job gains from it.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Resistance to ground

| Rail | Reading |
|------|---------|
| +5V  | 2.1 ohm |
         ^^^^^^^ outside-expected: 60 Ω to 400 Ω
`),
      exampleLog(`## Frequency

| Ref | Pin | Reading    |
|-----|-----|------------|
| U20 | 3   | 1.0021 MHz |
              ^^^^^^^^^^ outside-expected: U20 pin 3 (1CLK): The clock is 2100 ppm fast; 500 ppm either way is allowed
`),
    ],
    good: [
      exampleLog(`## Resistance to ground

| Rail | Reading |
|------|---------|
| +5V  | 118 ohm |
`),
      exampleLog(`## Frequency

| Ref | Pin | Reading    |
|-----|-----|------------|
| U20 | 3   | 1.0002 MHz |
`),
    ],
  },
  run: (input) => fromJudgements(input, "outside-expected"),
  noFix: "The reading is what was measured; the fault is on the board.",
});
