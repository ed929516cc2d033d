// A rail's resistance to ground before power is applied.
import { defined } from "../base/defined";
import { comparisonText } from "../compute/limits/text";
import type { Reading } from "../log/model";
import { say } from "../quantity/say";
import { compareWith, extentOf } from "./compare";
import type { LogContext } from "./context";
import { judgeExpected } from "./expected";
import type { Place } from "./place";
import { findRail } from "./rail-name";
import type { Judgement, Reference } from "./types";
import { uncertaintyOf } from "./uncertainty";

const CODE = "rail-shorted";
/** A rail below this is taken for shorted, whatever it feeds: common practice, no source. */
const SHORT_BELOW = 2;

/** The board's own window decides; without one only a plain short is told. */
export function judgeGround(
  reading: Reading,
  place: Place | undefined,
  ctx: LogContext,
): Judgement | undefined {
  const typed = reading.subject.rail?.text;
  const extent = extentOf(reading.value);
  if (typed === undefined || !extent || reading.spec.quantity !== "resistance") return undefined;
  const name = (ctx.board && findRail(ctx.board.value, typed)?.name) ?? typed;
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "ohms");
  const reference: Reference = {
    kind: "physics",
    of: "a rail that is not shorted",
    low: SHORT_BELOW,
    unit: "ohm",
    source: "common practice, no source",
  };
  const found = compareWith(reference, extent, uncertainty);
  const { verdict, side } = found;
  const formula = comparisonText(found, "bench");
  const base = defined<Omit<Judgement, "verdict" | "sentence">>({
    reading,
    reference,
    uncertainty,
    formula,
    place,
  });
  if (verdict === "out-of-limits") {
    return {
      ...base,
      verdict,
      side,
      code: CODE,
      sentence: `${name} reads ${say(extent.high, "ohm")} to ground: that is a short. Do not apply power. Lift or unplug what hangs on the rail, one part after the other, and read again (common practice, no source).`,
    };
  }
  const expected = judgeExpected(reading, place, ctx);
  if (expected.verdict !== "unjudged") return expected;
  return {
    ...base,
    verdict: "unjudged",
    sentence: `${name} reads ${reading.value.typed} to ground: no plain short, which would be below ${say(SHORT_BELOW, "ohm")} (${reference.source}). Nothing says what it should read, so that is all this tells; compare another board.`,
  };
}
