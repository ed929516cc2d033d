import { defined } from "../base/defined";
import type { Judgement } from "../judge";
import type { JudgementCode } from "../judge/codes";
import type { LogContext } from "../judge/context";
import { formatValue } from "../quantity/format-value";
import type { BlockInput, Draft, RelatedPlace, Severity } from "./check";
import { placesOfPart } from "./in-board";
import { placesOfNet } from "./on-net";

/** One finding for every judgement that carries the code; suspect readings are reported as information. */
export function* fromJudgements({ judgements, ctx }: BlockInput, code: JudgementCode): Iterable<Draft> {
  for (const judgement of judgements.values()) {
    if (judgement.code === code) yield draftOf(judgement, ctx);
  }
}

export function draftOf(judgement: Judgement, ctx: LogContext): Draft {
  const { reading, verdict } = judgement;
  const severity: Severity | undefined = verdict === "suspect" ? "information" : undefined;
  // What cannot be a reading says nothing of the net.
  const net = verdict === "out-of-limits" || verdict === "suspect" ? judgement.place?.net : undefined;
  const related = [...relatedTo(judgement, ctx), ...placesOfNet(net, ctx)];
  const suggestion = reading.value.kind === "unreadable" ? reading.value.suggestion : undefined;
  return defined({
    span: reading.cell.span,
    ...judgement.says,
    source: judgement.says.source ?? judgement.reference?.source,
    formula: judgement.formula,
    net,
    severity,
    related: related.length > 0 ? related : undefined,
    data: suggestion === undefined ? undefined : { newText: suggestion },
    restsOn: judgement.place?.device ? judgement.place.ref : undefined,
  });
}

/** Where the limits are written or which jobs they come from, else where the board file says what part this is. */
function relatedTo({ reference, place }: Judgement, ctx: LogContext): RelatedPlace[] {
  if (reference?.link) {
    return [{ ...reference.link, message: `the limits are from here: ${reference.source}` }];
  }
  if (reference?.jobs) {
    // The place in another log is not remembered; its file says enough.
    const span = { start: 0, end: 0 };
    return reference.jobs.map(({ uri, job, value }) => ({
      uri,
      span,
      message: `job ${job} reads ${formatValue(value, reference.unit)} here`,
    }));
  }
  return place?.part ? placesOfPart(place.part.ref, ctx) : [];
}
