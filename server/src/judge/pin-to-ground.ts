// The resistance from a chip's pin to ground, with the power off: only a plain short is told.
import { comparisonText } from "../compute/limits/text";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import { compareWith, extentOf } from "./compare";
import type { LogContext } from "./context";
import { judgeExpected } from "./expected";
import { partWord, tellWhich } from "./part-word";
import { type TestPoint, testPointName } from "./test-point";
import type { Judgement, Reference } from "./types";
import { uncertaintyOf } from "./uncertainty";

const CODE = "pin-shorted";
/** A signal pin below this is taken for shorted: common practice, no source. */
const SHORT_BELOW = 2;
/** A ground pin above this has a poor joint or none: common practice, no source. */
const GROUND_ABOVE = 5;

/** Undefined where the row names no pin that the library knows. */
export function judgePinToGround(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  const extent = extentOf(reading.value);
  if (!place?.pin || !extent || reading.spec.quantity !== "resistance" || reading.measure === "reversed")
    return undefined;
  const expected = judgeExpected(reading, place, ctx);
  if (expected.verdict !== "unjudged") return expected;
  const { direction } = place.pin;
  if (direction === "not-connected" || direction === "passive" || place.device?.kind === "regulator")
    return undefined;
  const isGround = direction === "ground" || place.tiedTo === "ground";
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "ohms");
  const reference: Reference = {
    kind: "physics",
    of: isGround ? "a pin on ground" : "a pin that is not shorted to ground",
    ...(isGround ? { high: GROUND_ABOVE } : { low: SHORT_BELOW }),
    unit: "ohm",
    source: "common practice, no source",
  };
  const found = compareWith(reference, extent, uncertainty);
  const { verdict, side } = found;
  const formula = comparisonText(found, "bench");
  const base = { reading, place, reference, uncertainty, formula };
  const read = `${testPointName(place)} reads ${extent.low === extent.high ? formatValue(extent.low, "ohm") : reading.value.typed} to ground`;
  if (verdict === "within-limits" && isGround)
    return {
      ...base,
      verdict,
      says: {
        fact: `${read}; a ground pin reads at most ${formatValue(GROUND_ABOVE, "ohm")}.`,
        cause: "Not disproved.",
      },
    };
  if (verdict === "within-limits") {
    return {
      ...base,
      verdict: "unjudged",
      says: {
        fact: `${read}: no plain short or break.`,
        step: `It tells no more. Compare a sister ${partWord(place)}.`,
      },
    };
  }
  return {
    ...base,
    verdict,
    side,
    code: CODE,
    says: isGround
      ? {
          fact: `${read}; a ground pin reads at most ${formatValue(GROUND_ABOVE, "ohm")}.`,
          cause: "Its joint, its socket contact or the track is open or poor.",
          step: "Check those first.",
        }
      : {
          fact: `${read}; below ${formatValue(SHORT_BELOW, "ohm")} is a short.`,
          cause: `Shorted, in the ${partWord(place)} or along its net.`,
          step: tellWhich(place),
        },
  };
}
