import { judgeBlock } from "../judge";
import { tablesOf } from "../log/document";
import { momentIn, timelineOf } from "../log/timeline";
import { shift } from "../text/span";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

export default documentCheck({
  code: "chip-test-failed",
  title: "A chip that failed out of circuit",
  severity: "warning",
  scope: "document",
  why: "What fails in a tester with nothing else on its pins is the chip itself, whatever the board around it does. One that passes there is not proven: a tester is slow and cold, and loads nothing.",
  remedy:
    "Clean its legs, see that the tester is set to its number and test it once more. Then renew it, in a socket, and look for what killed it before the new one goes in: the load of a driver, a leaked battery, a rail too high.",
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
  *run({ doc, ctx }) {
    const timeline = timelineOf(doc);
    for (const { start, block, table } of tablesOf(doc)) {
      if (table.kind.judgedBy !== "tester") continue;
      const judgements = judgeBlock(block, ctx);
      const { repairs } = momentIn(timeline, table);
      for (const reading of table.readings) {
        const judgement = judgements.get(reading);
        if (judgement?.code !== "chip-test-failed") continue;
        // The chip that failed is no longer on the board.
        const ref = reading.subject.ref?.text.toUpperCase() ?? "";
        if ((timeline.replaced.get(ref) ?? 0) > repairs) continue;
        yield { span: shift(reading.cell.span, start), message: judgement.sentence };
      }
    }
  },
  noFix: "The chip has to be renewed, by hand.",
});
