import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "junction-disproved",
  title: "A transistor junction that is no junction",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "A junction that reads shorted, open the way it should conduct, or conducting the way it should block disproves the transistor or something across it. Drivers of coils and lamps mostly fail shorted and often take the stage before them along.",
  remedy:
    "Unplug the load and read again, then lift a lead to tell the transistor from the parts across it. Replace the driver together with its pre-driver if both read wrong.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Transistor junctions

| Ref | B-E  | B-C  | C-E   |
|-----|------|------|-------|
| Q1  | 0.65 | 0.64 | 0.002 |
                      ^^^^^ junction-disproved: shorted
`),
    ],
    good: [
      exampleLog(`## Transistor junctions

| Ref | B-E  | B-C  | C-E |
|-----|------|------|-----|
| Q1  | 0.65 | 0.64 | OL  |
`),
    ],
  },
  run: (input) => fromJudgements(input, "junction-disproved"),
  noFix: "The reading is what was measured; the fault is on the board.",
});
