import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { fromJudgements } from "./from-judgements";

export default blockCheck({
  code: "coil-diode",
  title: "A coil with an open, missing or shorted diode",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "The diode across a coil takes the kick that its winding gives when it is switched off. Open or missing, the kick reaches the driver on the board; shorted, the driver carries all that the supply gives.",
  remedy:
    "Read it both ways with the coil's wire off. Renew a diode that is open, shorted or missing, the right way round with its band to the supply, before the board goes back.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Coil resistance

| Ref | Reading  | Diode   |
|-----|----------|---------|
| Q5  | 11.8 ohm | OL      |
                   ^^ coil-diode: The diode of Q5 reads OL; a diode drops 0.4 V to 0.75 V
| Q5  | 11.9 ohm | 0.002   |
                   ^^^^^ coil-diode: The diode of Q5 reads 0.002; a diode drops 0.4 V to 0.75 V
| Q5  | 12.0 ohm | OL / OL |
                   ^^^^^^^ coil-diode: open both ways
`),
    ],
    good: [
      exampleLog(`## Coil resistance

| Ref | Reading  | Diode     | Diode reversed | Note          |
|-----|----------|-----------|----------------|---------------|
| Q5  | 11.8 ohm | 0.55      |                |               |
| Q5  | 11.8 ohm | 0.55      | OL             |               |
| Q5  | 11.8 ohm | OL / 0.56 |                |               |
| Q5  | 11.8 ohm | 0.012     |                | coil still on |
`),
    ],
  },
  run: (input) => fromJudgements(input, "coil-diode"),
  noFix: "The reading is what was measured; the fault is at the coil.",
});
