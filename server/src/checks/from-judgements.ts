import type { Judgement } from "../analysis/judge";
import type { BlockInput, Draft, RelatedPlace, Severity } from "./check";

/** One finding for every judgement that carries the code; suspect readings are reported as information. */
export function* fromJudgements({ judgements }: BlockInput, code: string): Iterable<Draft> {
  for (const judgement of judgements.values()) {
    if (judgement.code === code) yield draftOf(judgement);
  }
}

export function draftOf(judgement: Judgement): Draft {
  const { reading, verdict } = judgement;
  const severity: Severity | undefined = verdict === "suspect" ? "information" : undefined;
  const related = relatedTo(judgement);
  const suggestion = reading.value.kind === "unreadable" ? reading.value.suggestion : undefined;
  return {
    span: reading.cell.span,
    message: judgement.sentence,
    ...(severity ? { severity } : {}),
    ...(related.length > 0 ? { related } : {}),
    ...(suggestion === undefined ? {} : { data: { newText: suggestion } }),
  };
}

function relatedTo({ reference }: Judgement): RelatedPlace[] {
  if (!reference?.link) return [];
  return [{ ...reference.link, message: `the limits come from here (${reference.source})` }];
}
