import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "impossible-value",
  title: "A value the meter cannot have shown",
  severity: "error",
  scope: "block",
  rowByRow: true,
  why: "A negative resistance, or a drop above the meter's diode-test voltage, is a slip of the pen or of the range switch. It says nothing about the part.",
  remedy: "Look at the sign, the decimal point and the range, and read it again.",
  examples: {
    bad: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | -0.58   |
              ^^^^^ impossible-value: U14 pin 1 (1A) reads -0.58; a drop on the diode range cannot be below 0
`),
    ],
    good: [
      `//- b.board.yaml
mendlog-board: 1
id: example
title: Example board
rails:
  "+5V": { nominal: 5 V, tolerance: 5 % }
  "-12V": { nominal: -12 V, tolerance: 5 % }
//- log.md
---
mendlog: 1
board: example
---

## Supply rails

| Rail | DC   |
|------|------|
| +5V  | 5.02 |
| -12V | -12.1 |
`,
    ],
  },
  run: (input) => fromJudgements(input, "impossible-value"),
  noFix: "The log does not show which digit is wrong. Take the reading again.",
});
