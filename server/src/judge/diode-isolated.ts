// A drop read with something off the net: a lifted leg shows its chip alone, an empty socket what is left of the net.

import { defined } from "../base/defined";
import type { Extent } from "../compute/limits/compare";
import { comparisonText } from "../compute/limits/text";
import type { Reading } from "../log/model";
import type { Advice, Saying } from "../text/saying";
import { compareWith, limitWords, straddleAdvice } from "./compare";
import type { LogContext } from "./context";
import { diodeReference, GROUND_MAX } from "./diode-window";
import { reads } from "./diode-words";
import type { IsolatedReading } from "./nets/isolation";
import { partWord } from "./part-word";
import { pinRole } from "./pin-role";
import { boardReference } from "./reference";
import { partTestPoint, pinTestPoint, type TestPoint, testPointName } from "./test-point";
import type { Judgement, Reference } from "./types";

interface Read {
  readonly extent: Extent;
  readonly uncertainty: number;
}

/**
 * The window is the family's for a lifted leg, and what is left on the net gives it where the pin's own part is out.
 * A reading above it is then only suspect: what conducted may have been the part that is out.
 */
export function judgeIsolated(
  reading: Reading,
  place: TestPoint,
  ctx: LogContext,
  isolation: IsolatedReading,
  { extent, uncertainty }: Read,
): Judgement {
  const { alone, off, words } = isolation;
  const ownOff = off.some((ref) => ref.toUpperCase() === place.ref.toUpperCase());
  const left = ownOff ? leftOn(place, ctx, off) : place;
  const role = left && pinRole(left);
  const usual: Reference | undefined =
    (!alone && !ownOff ? boardReference(reading, place, "V", ctx) : undefined) ??
    (left && role && diodeReference(role, left));
  const read = `${testPointName(place)} ${reads(reading, extent)} ${words}`;
  const base = { reading, place, uncertainty };
  if (!usual || !left) {
    const why = ownOff
      ? "Nothing else on its net has a usual window"
      : "There is no usual window for this pin by itself";
    return { ...base, verdict: "unjudged", says: { fact: `${read}. ${why}, so the reading is not judged.` } };
  }
  const result = compareWith(usual, extent, uncertainty);
  const high = result.verdict === "out-of-limits" && result.side === "high";
  const verdict = high && !alone ? "suspect" : result.verdict;
  const says: Saying = {
    fact: `${read}; ${limitWords(usual)}.`,
    ...(verdict === "within-limits"
      ? { cause: rightText(place, isolation) }
      : result.verdict === "suspect"
        ? { step: straddleAdvice(reading.value, uncertainty) }
        : wrongText(place, isolation, high, extent)),
  };
  return defined({
    ...base,
    verdict,
    side: result.side,
    code: verdict === "within-limits" ? undefined : "diode-out-of-window",
    reference: usual,
    formula: comparisonText(result, "bench"),
    says,
  });
}

/** Another part on the net, not taken off it, whose pin has a window of its own. */
function leftOn(place: TestPoint, ctx: LogContext, off: readonly string[]): TestPoint | undefined {
  const board = ctx.board?.value;
  const gone = new Set(off.map((ref) => ref.toUpperCase()));
  return (place.net?.pins ?? [])
    .filter(({ ref }) => !gone.has(ref.toUpperCase()))
    .map(({ ref, pin }) => pinTestPoint(partTestPoint(ref, board, ctx.library), pin, board))
    .find((at) => pinRole(at) === "signal" && diodeReference("signal", at) !== undefined);
}

function rightText(place: TestPoint, { alone, off, cut }: IsolatedReading): string {
  const { net, ref } = place;
  if (alone)
    return `If ${net?.name ?? "the net"} reads wrong with the pin in place, ${ref} is not what pulls it. This reading cannot prove the ${partWord(place)}.`;
  if (cut) return "The fault, if there is one, is on the other side of the cut.";
  return `If ${net?.name ?? "the net"} reads wrong otherwise, look at ${off.join(" and ")}.`;
}

function wrongText(
  { net, ref }: TestPoint,
  isolation: IsolatedReading,
  high: boolean,
  extent: Extent,
): Advice {
  const { alone, off, cut } = isolation;
  if (alone) {
    const how = high ? "Its clamp is open" : extent.high <= GROUND_MAX ? "It is shorted" : "It leaks";
    return { cause: `${how}, and nothing else is on the leg: it is ${ref}.`, step: "Replace it." };
  }
  if (high) {
    return {
      cause: `What is left on ${net?.name ?? "the net"} hardly conducts. The part you took off may have been what did.`,
      step: "Look at the joints before you blame a part.",
    };
  }
  const rest = cut
    ? "on this side of the cut"
    : `among what is left on ${net?.name ?? "the net"}, or its track`;
  return {
    cause: off.length > 0 ? `It is not ${off.join(" or ")}: the cause is ${rest}.` : `The cause is ${rest}.`,
  };
}
