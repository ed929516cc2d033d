import { defined } from "../base/defined";
import type { Result } from "../compute/result";
import type { Assessment } from "../compute/verdict";
import type { Reading } from "../log/model";
import { sourcesOf } from "../text/saying";
import type { JudgementCode } from "./codes";
import { type TestPoint, testPointName } from "./test-point";
import type { Judgement, Reference } from "./types";

interface More {
  readonly uncertainty?: number;
  readonly reference?: Reference;
  /** Said behind the ruling: where a tolerance came from. */
  readonly note?: string;
}

/** A ruling of the circuit arithmetic as a judgement of a reading; one that was refused is not judged. */
export function judgementFrom(
  reading: Reading,
  place: TestPoint | undefined,
  ruling: Result<Assessment>,
  code: JudgementCode,
  { uncertainty, reference, note }: More = {},
): Judgement {
  if (!ruling.ok) return unjudged(reading, place, ruling.reason);
  const { verdict, side, formula, source } = ruling;
  const within = verdict === "within-limits" && !ruling.saysUnproven;
  const reported = verdict === "out-of-limits" || verdict === "suspect" || verdict === "impossible";
  const name = place ? `${testPointName(place)}: ` : "";
  return defined({
    reading,
    verdict,
    side,
    code: reported ? code : undefined,
    says: {
      ...ruling.says,
      fact: `${name}${ruling.says.fact}`,
      ...(within && ruling.says.cause === undefined ? { cause: "Not disproved." } : {}),
      source: sourcesOf(source, note),
    },
    formula,
    uncertainty,
    reference,
    place,
  });
}

export const unjudged = (reading: Reading, place: TestPoint | undefined, fact: string): Judgement =>
  defined({
    reading,
    verdict: "unjudged",
    says: { fact },
    place,
  });
