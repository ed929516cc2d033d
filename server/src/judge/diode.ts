import type { Extent, Side } from "../compute/limits/compare";
import { comparisonText } from "../compute/limits/text";
import type { Reading } from "../log/model";
import type { JudgementCode } from "./codes";
import { compareWith, doubtAdvice, extentOf, ofText, straddleAdvice, windowText } from "./compare";
import type { LogContext } from "./context";
import { excuseOf, noExcuse } from "./diode-excuse";
import { judgeIsolated } from "./diode-isolated";
import { powerReference } from "./diode-power";
import { diodeReference, GROUND_MAX, isLinear, linearReference } from "./diode-window";
import { advice, reads, whyUnjudged } from "./diode-words";
import { judgeLeg } from "./legs";
import { isolationOf } from "./nets/isolation";
import { type PinRole, pinRole } from "./pin-role";
import { type Place, placeName } from "./place";
import { boardReference, shopReference } from "./reference";
import type { Judgement, Reference } from "./types";
import { uncertaintyOf } from "./uncertainty";

const CODE: JudgementCode = "diode-out-of-window";
/** How far past the usual window other parts on the net may carry a reading: common practice, no source. */
const PARALLEL_ALLOWANCE = 0.1;

/** A drop to ground on the diode range, red lead on ground, judged by what the pin is. */
export function judgeDiode(reading: Reading, place: Place, ctx: LogContext): Judgement {
  const extent = extentOf(reading.value);
  const base = { reading, place };
  if (!extent) return { ...base, verdict: "unjudged", sentence: "Not a drop in volts: nothing to compare." };
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "diode");
  const isolation = isolationOf(reading, place, ctx.board?.value);
  if (isolation) return judgeIsolated(reading, place, ctx, isolation, { extent, uncertainty });
  if (isSocket(reading, place))
    return {
      ...base,
      verdict: "unjudged",
      sentence: `${placeName(place)}: read with ${place.ref} out. What the board does there without it is not known.`,
    };
  const expected = boardReference(reading, place, "V", ctx) ?? shopReference(reading, place, ctx);
  const role = pinRole(place);
  const where = placeName(place);
  const read = reads(reading, extent);

  if (expected) {
    const result = compareWith(expected, extent, uncertainty);
    const slip = result.verdict === "out-of-limits" ? unitSlip(reading, expected) : "";
    const verdict = slip === "" ? result.verdict : "suspect";
    return {
      ...base,
      verdict,
      side: result.side,
      ...report(verdict),
      reference: expected,
      uncertainty,
      formula: comparisonText(result, "bench"),
      sentence:
        result.verdict === "within-limits"
          ? `${where} ${read}: within ${windowText(expected)}, ${expected.of} (${expected.source}). Not disproved.`
          : `${where} ${read}; ${expected.of} is ${windowText(expected)} (${expected.source}). ${slip || (result.verdict === "suspect" ? doubtAdvice(result, expected, reading.value, uncertainty) : usualElsewhere(extent, expected, role, place) || advice(role, result.side, extent, place.net))}`,
    };
  }
  if (role === "not-connected") {
    return {
      ...base,
      verdict: "unjudged",
      uncertainty,
      sentence: `${where} is not connected inside the chip: it may read open, or whatever else its track meets.`,
    };
  }
  const linear = role === "signal" ? linearReference(place) : undefined;
  const usual = linear ?? diodeReference(role, place) ?? powerReference(place, ctx);
  if (linear && compareWith(linear, extent, uncertainty).verdict === "within-limits") {
    return {
      ...base,
      verdict: "unjudged",
      uncertainty,
      sentence: `${where} ${read}. What a linear part's pin drops hangs on its circuit: only a short would tell. Compare a sister stage or another board.`,
    };
  }
  const leg = usual ? undefined : judgeLeg(reading, place, extent, ctx);
  if (leg)
    return {
      ...base,
      ...leg,
      ...report(leg.verdict),
      uncertainty,
      sentence: `${where} ${read}: ${leg.sentence}`,
    };
  if (!usual) {
    return {
      ...base,
      verdict: "unjudged",
      uncertainty,
      sentence: `${where} ${read}. ${whyUnjudged(place, ctx)} Compare a sister chip or another board.`,
    };
  }
  const result = compareWith(usual, extent, uncertainty);
  const near =
    result.verdict === "out-of-limits" &&
    (unitSlip(reading, usual) || innocent(extent, result.side, usual, place, ctx));
  const verdict = near ? "suspect" : result.verdict;
  const doubt = result.verdict === "suspect" ? straddleAdvice(reading.value, uncertainty) : near;
  return {
    ...base,
    verdict,
    side: result.side,
    ...report(verdict),
    reference: usual,
    uncertainty,
    formula: comparisonText(result, "bench"),
    sentence:
      verdict === "within-limits"
        ? `${where} ${read}: within ${windowText(usual)}, ${ofText(usual)} (${usual.source}). Not disproved; this reading cannot prove the chip.`
        : `${where} ${read}; ${ofText(usual)} is usually ${windowText(usual)} (${usual.source}). ${doubt || `${advice(role, result.side, extent, place.net)}${result.side === "low" && role === "signal" ? noExcuse(place, ctx) : ""}`}`,
  };
}

/** A sentence where a number typed without its unit, in a column of millivolts, would fit as volts; else "". */
function unitSlip({ value }: Reading, { low = 0, high = Number.POSITIVE_INFINITY }: Reference): string {
  if (value.kind !== "quantity" || !/^[\d.,]+$/.test(value.typed)) return "";
  const asVolts = Number(value.typed.replace(",", "."));
  const fits = value.quantity.value < asVolts && low > 0 && asVolts >= low && asVolts <= high;
  return fits
    ? `The column is in ${SMALLER.get(Math.round(asVolts / value.quantity.value)) ?? "a smaller unit"}: if volts were meant, write "${value.typed} V".`
    : "";
}

const SMALLER: ReadonlyMap<number, string> = new Map([
  [1e3, "millivolts"],
  [1e6, "microvolts"],
]);

/** A sentence where other boards read otherwise, though a chip of the family may read so; else "". */
function usualElsewhere(extent: Extent, { kind }: Reference, role: PinRole, place: Place): string {
  const usual = kind === "shop" || kind === "reference-job" ? diodeReference(role, place) : undefined;
  if (usual?.kind !== "family" || compareWith(usual, extent, 0).verdict !== "within-limits") return "";
  return "A chip of this family may read so, but not in this place: look at what else hangs on the net, and compare another board, before blaming the chip.";
}

/** A sentence naming what else may cause the reading, or "" where nothing innocent does. */
function innocent(
  extent: Extent,
  side: Side | undefined,
  usual: Reference,
  place: Place,
  ctx: LogContext,
): string {
  const { low = 0, high = Number.POSITIVE_INFINITY } = usual;
  const missBy = side === "high" ? extent.low - high : low - extent.high;
  const excuse = side === "low" ? excuseOf(place, extent.high, ctx) : "";
  if (excuse) return excuse;
  if (usual.kind === "family" && missBy <= PARALLEL_ALLOWANCE && extent.high > GROUND_MAX) {
    return "Just outside the usual range: another make of chip or the parts around it can do that. Compare the like pins before blaming the chip.";
  }
  // Many circuits have an amplifier's input on ground; an output there is shorted.
  if (side === "low" && place.device && place.pin?.direction === "input" && isLinear(place.device, place.pin))
    return "Many circuits tie such an input to ground: look at the drawing or a sister stage before blaming the chip.";
  return "";
}

/** Its own part was out while it was read, and nobody says what else is on the net. */
const isSocket = ({ apart = [] }: Reading, { ref, net }: Place): boolean =>
  !net &&
  apart.some(
    (one) => one.how === "out" && (one.ref === undefined || one.ref.toUpperCase() === ref.toUpperCase()),
  );

const report = (verdict: Judgement["verdict"]) =>
  verdict === "out-of-limits" || verdict === "suspect" ? { code: CODE } : {};
