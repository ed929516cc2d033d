import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { untilReplaced } from "./until-replaced";

export default documentCheck({
  code: "chip-test-failed",
  title: "A chip that failed out of circuit",
  severity: "warning",
  scope: "document",
  why: "With nothing else on its pins, what fails in a tester is the chip itself. One that passes there is not proven: a tester is slow and cold, and loads nothing.",
  remedy:
    "Clean its legs, see that the tester is set to its number and test it again. Then renew it, in a socket, and look for what killed it before the new one goes in: the load of a driver, a leaked battery, a rail too high.",
  settledBy: "later-reading",
  examples: {
    bad: [
      exampleLog(`## Chip test

| Ref | Part   | Result |
|-----|--------|--------|
| U14 | 74LS04 | fail   |
                 ^^^^ chip-test-failed: disproved
| U15 | 74LS04 | pass   |
`),
      exampleLog(`## Out of circuit test

| Ref | Result |
|-----|--------|
| U14 | bad    |
        ^^^ chip-test-failed: failed its test

## Work done

| Ref | Action         |
|-----|----------------|
| U14 | to be replaced |
`),
    ],
    good: [
      exampleLog(`## Chip test

| Ref | Part   | Result       | Note           |
|-----|--------|--------------|----------------|
| U14 | 74LS04 | pass         | also warm      |
| U15 | 74LS04 | intermittent | legs tarnished |
`),
      exampleLog(`## Chip test

| Ref | Part   | Result |
|-----|--------|--------|
| U14 | 74LS04 | fail   |

## Work done

| Ref | Action  | Part   |
|-----|---------|--------|
| U14 | replace | 74LS04 |

## Diode check after repair

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.57    |
`),
    ],
  },
  run: (input) => untilReplaced(input, "tester", "chip-test-failed"),
  noFix: "The chip has to be renewed, by hand.",
});
