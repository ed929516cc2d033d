import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { replaceWithData } from "./fixes";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "unreadable-value",
  title: "A reading that cannot be read",
  severity: "error",
  scope: "block",
  rowByRow: true,
  why: "A letter O typed for a zero, or two decimal points, leaves a cell that no sum and no comparison can use. It is silently missing from everything computed from the log.",
  remedy:
    "Type the value again. An open circuit is `OL` or `open`, a pin that was not measured is `-` or an empty cell, and anything else belongs in the note column.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | O.58    |
              ^^^^ unreadable-value: Did you mean 0.58?
`),
        fixes: [
          {
            title: "Change to 0.58",
            makes: `
 |-----|-----|---------|
-| U14 | 1   | O.58    |
+| U14 | 1   | 0.58    |
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
| U14 | 2   | 580 mV  |
| U14 | 3   | -       |
| U14 | 4   | .58     |
| U14 | 5   | 0,58    |
`),
    ],
  },
  run: (input) => fromJudgements(input, "unreadable-value"),
  fixes: { change: (finding) => replaceWithData(finding, (text) => `Change to ${text}`) },
});
