import { defined } from "../base/defined";
import { formatValue } from "../quantity/format-value";
import type { Judgement } from "./types";

/** Limits that contradict each other judge nothing: whichever way a reading fell, it would be a guess. */
export function withSoundLimits(judgement: Judgement): Judgement {
  const { reading, reference, place, verdict } = judgement;
  if (!reference || verdict === "impossible") return judgement;
  const { low, high, unit, of, source } = reference;
  if (low === undefined || high === undefined || low <= high) return judgement;
  return defined({
    reading,
    verdict: "unjudged",
    says: {
      fact: `${of.charAt(0).toUpperCase()}${of.slice(1)} has limits that contradict each other: at least ${formatValue(low, unit)} and at most ${formatValue(high, unit)} (${source}). Correct them and it will be judged.`,
    },
    place,
  });
}
