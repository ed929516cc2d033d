// What was found of a part by itself stays a finding until another part stands in its place.
import { judgeBlock } from "../judge";
import type { JudgementCode } from "../judge/codes";
import { tablesThat } from "../log/in-blocks";
import { momentIn, timelineOf } from "../log/timeline";
import { shift } from "../text/span";
import type { Draft, LogInput } from "./check";

const judgedOneByOne: { readonly [By in "swap" | "tester"]: ReturnType<typeof tablesThat> } = {
  swap: tablesThat(({ kind }) => kind.judgedBy === "swap"),
  tester: tablesThat(({ kind }) => kind.judgedBy === "tester"),
};

/** One for each reading of the tables of that judge with that code, whose part was not replaced since it was taken. */
export function* untilReplaced(
  { doc, ctx }: LogInput,
  judgedBy: keyof typeof judgedOneByOne,
  code: JudgementCode,
): Iterable<Draft> {
  const timeline = timelineOf(doc);
  for (const { start, block, table } of judgedOneByOne[judgedBy](doc)) {
    const judgements = judgeBlock(block, ctx);
    const { repairs } = momentIn(timeline, table);
    for (const reading of table.readings) {
      const judgement = judgements.get(reading);
      if (judgement?.code !== code) continue;
      const ref = reading.subject.ref?.text.toUpperCase() ?? "";
      if ((timeline.replaced.get(ref) ?? 0) > repairs) continue;
      yield { span: shift(reading.cell.span, start), ...judgement.says };
    }
  }
}
