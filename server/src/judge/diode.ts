import { withLater } from "../base/later";
import { once } from "../base/once";
import type { Extent, Side } from "../compute/limits/compare";
import { comparisonText } from "../compute/limits/text";
import type { Reading } from "../log/model";
import type { Advice } from "../text/saying";
import type { JudgementCode } from "./codes";
import { compareWith, doubtAdvice, extentOf, limitWords, straddleAdvice } from "./compare";
import type { LogContext } from "./context";
import { excuseOf, noExcuse } from "./diode-excuse";
import { judgeIsolated } from "./diode-isolated";
import { powerReference } from "./diode-power";
import { diodeReference, GROUND_MAX, isLinear, linearReference } from "./diode-window";
import { advice, reads, whyUnjudged } from "./diode-words";
import { judgeLeg } from "./legs";
import { isolationOf } from "./nets/isolation";
import { partWord } from "./part-word";
import { type PinRole, pinRole } from "./pin-role";
import { boardReference, shopReference } from "./reference";
import { type TestPoint, testPointName } from "./test-point";
import type { Judgement, Reference } from "./types";
import { uncertaintyOf } from "./uncertainty";

const CODE: JudgementCode = "diode-out-of-window";
/** How far past the usual window other parts on the net may carry a reading: common practice, no source. */
const PARALLEL_ALLOWANCE = 0.1;

/** A drop to ground on the diode range, red lead on ground, judged by what the pin is. */
export function judgeDiode(reading: Reading, place: TestPoint, ctx: LogContext): Judgement {
  const extent = extentOf(reading.value);
  const base = { reading, place };
  if (!extent)
    return { ...base, verdict: "unjudged", says: { fact: "Not a drop in volts: nothing to compare." } };
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "diode");
  const isolation = isolationOf(reading, place, ctx.board?.value);
  if (isolation) return judgeIsolated(reading, place, ctx, isolation, { extent, uncertainty });
  if (isSocket(reading, place))
    return {
      ...base,
      verdict: "unjudged",
      says: {
        fact: `${testPointName(place)}: read with ${place.ref} out. What the board does there without it is not known.`,
      },
    };
  const expected = boardReference(reading, place, "V", ctx) ?? shopReference(reading, place, ctx);
  const role = pinRole(place);
  const where = () => testPointName(place);
  const read = () => reads(reading, extent);

  if (expected) {
    const result = compareWith(expected, extent, uncertainty);
    const slip = result.verdict === "out-of-limits" ? unitSlip(reading, expected) : undefined;
    const verdict = slip ? "suspect" : result.verdict;
    // Nearly all readings are within limits, and of most of those nobody is told.
    const says = once(() => ({
      fact: `${where()} ${read()}; ${limitWords(expected)}.`,
      ...(result.verdict === "within-limits"
        ? { cause: "Not disproved." }
        : (slip ??
          (result.verdict === "suspect"
            ? doubtAdvice(result, expected, reading.value, uncertainty)
            : (usualElsewhere(extent, expected, role, place) ?? advice(role, result.side, extent, place))))),
    }));
    return withLater(
      {
        ...base,
        verdict,
        side: result.side,
        ...report(verdict),
        reference: expected,
        uncertainty,
      },
      { formula: () => comparisonText(result, "bench"), says },
    );
  }
  if (role === "not-connected") {
    return {
      ...base,
      verdict: "unjudged",
      uncertainty,
      says: {
        fact: `${where()} is not connected inside the ${partWord(place)}. It may read open, or as its track does.`,
      },
    };
  }
  const linear = role === "signal" ? linearReference(place) : undefined;
  const usual = linear ?? diodeReference(role, place) ?? powerReference(place, ctx);
  if (linear && compareWith(linear, extent, uncertainty).verdict === "within-limits") {
    return {
      ...base,
      verdict: "unjudged",
      uncertainty,
      says: {
        fact: `${where()} ${read()}. A linear part's pin reads what its circuit makes of it; only a short would tell. Compare a sister stage or another board.`,
      },
    };
  }
  const leg = usual ? undefined : judgeLeg(reading, place, extent, ctx);
  if (leg)
    return {
      ...base,
      ...leg,
      ...report(leg.verdict),
      uncertainty,
      says: { ...leg.says, fact: `${where()} ${read()}${leg.says.fact}` },
    };
  if (!usual) {
    return {
      ...base,
      verdict: "unjudged",
      uncertainty,
      says: {
        fact: `${where()} ${read()}. ${whyUnjudged(place, ctx)} Compare a sister ${partWord(place)} or another board.`,
      },
    };
  }
  const result = compareWith(usual, extent, uncertainty);
  const near =
    result.verdict !== "out-of-limits"
      ? undefined
      : (unitSlip(reading, usual) ?? innocent(extent, result.side, usual, place, ctx));
  const verdict = near ? "suspect" : result.verdict;
  const doubt: Advice | undefined =
    result.verdict === "suspect" ? { step: straddleAdvice(reading.value, uncertainty) } : near;
  const isLowSignal = result.side === "low" && role === "signal";
  const says = once(() => ({
    fact: `${where()} ${read()}; ${limitWords(usual)}.`,
    ...(verdict === "within-limits"
      ? { cause: `Not disproved. This reading cannot prove the ${partWord(place)}.` }
      : (doubt ?? {
          ...advice(role, result.side, extent, place),
          more: isLowSignal ? noExcuse(place, ctx) : undefined,
        })),
  }));
  return withLater(
    {
      ...base,
      verdict,
      side: result.side,
      ...report(verdict),
      reference: usual,
      uncertainty,
    },
    { formula: () => comparisonText(result, "bench"), says },
  );
}

/** What to do where a number typed without its unit, in a column of millivolts, would fit as volts. */
function unitSlip(
  { value }: Reading,
  { low = 0, high = Number.POSITIVE_INFINITY }: Reference,
): Advice | undefined {
  if (value.kind !== "quantity" || !/^[\d.,]+$/.test(value.typed)) return undefined;
  const asVolts = Number(value.typed.replace(",", "."));
  const fits = value.quantity.value < asVolts && low > 0 && asVolts >= low && asVolts <= high;
  if (!fits) return undefined;
  const unit = SMALLER.get(Math.round(asVolts / value.quantity.value)) ?? "a smaller unit";
  return { cause: `The column is in ${unit}.`, step: `If you meant volts, write "${value.typed} V".` };
}

const SMALLER: ReadonlyMap<number, string> = new Map([
  [1e3, "millivolts"],
  [1e6, "microvolts"],
]);

const OTHER_BOARDS: ReadonlySet<Reference["kind"]> = new Set(["shop", "shops", "reference-job"]);

/** What to do where other boards read otherwise, though a chip of the family may read so. */
function usualElsewhere(
  extent: Extent,
  { kind }: Reference,
  role: PinRole,
  place: TestPoint,
): Advice | undefined {
  const usual = OTHER_BOARDS.has(kind) ? diodeReference(role, place) : undefined;
  if (usual?.kind !== "family" || compareWith(usual, extent, 0).verdict !== "within-limits") return undefined;
  return {
    cause: `The ${partWord(place)} itself may read so, but other boards do not.`,
    step: `Look at what else is on the net, and compare another board, before you blame the ${partWord(place)}.`,
  };
}

/** What else may cause the reading; undefined where nothing innocent does. */
function innocent(
  extent: Extent,
  side: Side | undefined,
  usual: Reference,
  place: TestPoint,
  ctx: LogContext,
): Advice | undefined {
  const { low = 0, high = Number.POSITIVE_INFINITY } = usual;
  const missBy = side === "high" ? extent.low - high : low - extent.high;
  const excuse = side === "low" ? excuseOf(place, extent.high, ctx) : undefined;
  if (excuse) return excuse;
  if (usual.kind === "family" && missBy <= PARALLEL_ALLOWANCE && extent.high > GROUND_MAX) {
    return {
      cause: `Just outside: another make of ${partWord(place)}, or the parts around it, can do that.`,
      step: `Compare the like pins before you blame the ${partWord(place)}.`,
    };
  }
  // Many circuits have an amplifier's input on ground; an output there is shorted.
  if (side === "low" && place.device && place.pin?.direction === "input" && isLinear(place.device, place.pin))
    return {
      cause: "Many circuits tie such an input to ground.",
      step: "Look at the drawing or a sister stage before you blame the chip.",
    };
  return undefined;
}

/** Its own part was out while it was read, and nobody says what else is on the net. */
const isSocket = ({ apart = [] }: Reading, { ref, net }: TestPoint): boolean =>
  !net &&
  apart.some(
    (one) => one.how === "out" && (one.ref === undefined || one.ref.toUpperCase() === ref.toUpperCase()),
  );

const report = (verdict: Judgement["verdict"]) =>
  verdict === "out-of-limits" || verdict === "suspect" ? { code: CODE } : {};
