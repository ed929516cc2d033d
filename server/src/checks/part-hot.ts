import { partTestPoint } from "../judge/test-point";
import { hotIn } from "../log/hot";
import { tablesThat } from "../log/in-blocks";
import { momentIn, timelineOf } from "../log/timeline";
import { shift } from "../text/span";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

export default documentCheck({
  code: "part-hot",
  title: "A part that got hot at first power",
  severity: "information",
  scope: "document",
  why: "A chip that gets hot within a minute among cool ones is shorted inside, latched up, the wrong way round, or drives a short. Regulators and power resistors get hot in their work.",
  remedy:
    "Switch off. See which way round it is, read its pins with the power off, and measure what it drives before another one goes in.",
  examples: {
    bad: [
      exampleLog(`## First power

| Rail | Limit | Current | Hot      | Result   |
|------|-------|---------|----------|----------|
| +5V  | 2 A   | 1.1 A   | U14, U15 | stays up |
                           ^^^ part-hot: U14 got hot at first power
                                ^^^ part-hot: U15 got hot at first power
`),
    ],
    good: [
      exampleLog(`## First power

| Rail | Limit | Current | Hot             | Result   |
|------|-------|---------|-----------------|----------|
| +5V  | 2 A   | 1.1 A   | nothing         | stays up |
| +24V | 1 A   | 0.1 A   | U14 only slight | stays up |
`),
    ],
  },
  *run({ doc, ctx }) {
    const timeline = timelineOf(doc);
    const board = ctx.board?.value;
    const own = new Set(
      [...(board?.rails.values() ?? [])].flatMap(({ regulator }) => regulator?.toUpperCase() ?? []),
    );
    for (const { start, table } of firstPower(doc)) {
      const { repairs } = momentIn(timeline, table);
      for (const { ref, span } of hotIn(table)) {
        const { part } = partTestPoint(ref, board, ctx.library);
        const known = (part?.ref ?? ref).toUpperCase();
        if (own.has(known) || (timeline.replaced.get(known) ?? 0) > repairs) continue;
        if (board && !part) continue;
        yield {
          span: shift(span, start),
          fact: `${part?.ref ?? ref} got hot at first power.`,
          cause: "A short inside it, a latch-up, the wrong way round, or a short that it drives.",
          step: "Switch off and read its pins before it is powered again.",
        };
      }
    }
  },
  noFix: "The fault is on the board, not in the log.",
});

const firstPower = tablesThat(({ kind }) => kind.observedAs === "limited-supply");
