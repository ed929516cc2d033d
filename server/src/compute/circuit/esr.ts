// There is no general table of series-resistance limits that an honest source stands behind: it depends on value,
// voltage, size, make and the meter's frequency. So a reading is judged only against a limit somebody gives, the
// part's own loss angle, or a new part of the same kind.
import { defined } from "../../base/defined";
import { say } from "../../quantity/say";
import { compare } from "../limits/compare";
import { comparisonText } from "../limits/text";
import { computed, notNegative, type Outcome, positive, readable, refused } from "../outcome";
import type { Ruling } from "../verdict";

/** How many times a new part's reading calls for a second look: common practice, no source. */
export const WORN_RATIO = 3;

/** The most series resistance in ohm that a data sheet's largest loss angle (tan δ at `frequency` Hz) allows. */
export function esrFromLossAngle(input: {
  readonly tanDelta: number;
  readonly frequency: number;
  readonly capacitance: number;
}): Outcome {
  const { tanDelta, frequency, capacitance } = input;
  return (
    refused(
      positive("loss angle", tanDelta, ""),
      positive("frequency", frequency, "Hz"),
      positive("capacitance", capacitance, "F"),
    ) ??
    computed(
      tanDelta / (2 * Math.PI * frequency * capacitance),
      "ohm",
      `${say(tanDelta, "")} / (2π × ${say(frequency, "Hz")} × ${say(capacitance, "F")})`,
      "definition of the loss angle of a capacitor in its series equivalent: tan δ = 2πfC × ESR",
    )
  );
}

export interface EsrInput {
  /** Ohms, zero or more; infinity for an open part. */
  readonly reading: number;
  readonly uncertainty?: number;
  readonly limit?: { readonly value: number; readonly source: string };
  /** What a new part of the same value, voltage and make reads on the same meter, in ohm. */
  readonly likeNew?: number;
}

/**
 * Series resistance against whatever is known. Parts in parallel only lower the reading, so a low one in place
 * leaves the part undecided. Without a limit and without a new part the answer is "unjudged".
 */
export function judgeEsr(input: EsrInput): Outcome<Ruling> {
  const { reading, uncertainty = 0, limit, likeNew } = input;
  const bad = refused(
    readable("series resistance", reading, "ohm"),
    notNegative("uncertainty", uncertainty, "ohm"),
    limit && positive("limit", limit.value, "ohm"),
    likeNew === undefined ? undefined : positive("new part's series resistance", likeNew, "ohm"),
  );
  if (bad) return bad;
  if (limit) {
    const found = compare(reading, { high: limit.value, unit: "ohm" }, { uncertainty });
    const { verdict, side } = found;
    const against = `${say(limit.value, "ohm")} (${limit.source})`;
    const read = `The series resistance of ${say(reading, "ohm")}`;
    const sentence =
      verdict === "within-limits"
        ? `${read} is within ${against}. Not disproved: another capacitor beside it can hide a worn one.`
        : verdict === "suspect"
          ? `${read} straddles ${against}: zero the leads and read again.`
          : `${read} is above ${against}: the capacitor is worn out or its joint is poor.`;
    const formula = comparisonText(found, "arithmetic");
    return {
      ok: true,
      verdict,
      side,
      sentence,
      formula,
      source: limit.source,
      namesSource: true,
      saysUnproven: verdict === "within-limits",
    };
  }
  if (likeNew !== undefined) {
    const bound = WORN_RATIO * likeNew;
    const worn = compare(reading, { high: bound, unit: "ohm" }, { uncertainty }).verdict === "out-of-limits";
    return defined({
      ok: true,
      verdict: worn ? "suspect" : "within-limits",
      side: worn ? "high" : undefined,
      formula: `${say(reading, "ohm")} ${worn ? ">" : "≤"} ${WORN_RATIO} × ${say(likeNew, "ohm")}`,
      source: "common practice, no source",
      saysUnproven: !worn,
      sentence: worn
        ? `The series resistance of ${say(reading, "ohm")} is more than ${WORN_RATIO} times the ${say(likeNew, "ohm")} of a new part: it is probably worn out. Take it out and read it alone.`
        : `The series resistance of ${say(reading, "ohm")} is not more than ${WORN_RATIO} times the ${say(likeNew, "ohm")} of a new part. Not disproved.`,
    });
  }
  return {
    ok: true,
    verdict: "unjudged",
    formula: say(reading, "ohm"),
    source: "no reference",
    sentence: `${say(reading, "ohm")} cannot be judged: no data sheet's limit and no new part's reading is given. Read a new part of the same value and voltage on the same meter.`,
  };
}
