import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "rail-shorted",
  title: "A rail shorted to ground",
  severity: "error",
  scope: "block",
  rowByRow: true,
  why: "Power put on a shorted rail burns tracks, regulators and fuses, and the short is still there afterwards.",
  remedy:
    "Do not apply power. Unplug and lift the parts on the rail one by one until the reading jumps; tantalum capacitors and regulators first.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Resistance to ground

| Rail | Reading |
|------|---------|
| +5V  | 0.4 ohm |
         ^^^^^^^ rail-shorted: Do not apply power
| +24V | 1.9 ohm |
         ^^^^^^^ rail-shorted: +24V reads 1.9 Ω to ground; below 2.4 Ω is a short
`),
    ],
    good: [
      exampleLog(`## Resistance to ground

| Rail | Reading |
|------|---------|
| +5V  | 95 ohm  |
| +24V | 32 ohm  |
`),
    ],
  },
  run: (input) => fromJudgements(input, "rail-shorted"),
  noFix: "The reading is what was measured; the fault is on the board.",
});
