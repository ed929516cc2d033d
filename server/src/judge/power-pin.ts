// A standing voltage at a pin that feeds or is fed: ground, a supply, a regulator's output.

import { comparisonText } from "../compute/limits/text";
import type { Assessment } from "../compute/verdict";
import type { DevicePin, Rail } from "../knowledge/types";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import type { Saying } from "../text/saying";
import { compareWith, extentOf, windowText } from "./compare";
import type { LogContext } from "./context";
import { type Fed, fedBy, feedsOf } from "./feeding";
import { judgementFrom, unjudged } from "./judgement-from";
import { railReference } from "./rail";
import { isNegativeSupply, outputWindow, type SupplyWindow, suppliesOf, supplyWindow } from "./supply-window";
import type { TestPoint } from "./test-point";
import type { Judgement, Reference } from "./types";
import { siValue, uncertaintyOf } from "./uncertainty";

const CODE = "level-undefined";
/** A regulator's output is a rail, whoever named it. */
const REGULATOR_CODE = "rail-out-of-tolerance";
/** A ground pin under power carries its own current's drop: common practice, no source. */
const GROUND_MAX = 0.1;
/** A part whose highest supply is no more than this many times its lowest is made for one voltage. */
const ONE_VOLTAGE = 1.35;
const PRACTICE = "common practice, no source";

/** A pin that feeds or is fed; undefined for any other, and where nothing says what it should read. */
export function judgePower(reading: Reading, place: TestPoint, ctx: LogContext): Judgement | undefined {
  const { pin, device } = place;
  if (reading.spec.quantity !== "voltage" || reading.measure === "ripple" || !pin) return undefined;
  const isOnRail = pin.direction === "ground" && place.tiedTo !== undefined && place.tiedTo !== "ground";
  if (pin.direction === "ground" && !isOnRail) return judgeWindow(reading, place, GROUND, ctx);
  if (pin.direction === "supply" || isOnRail) return judgeSupplyPin(reading, place, pin, ctx);
  return device?.kind === "regulator" ? regulatorOutput(reading, place, ctx) : undefined;
}

const GROUND: Reference = {
  kind: "physics",
  of: "a ground pin under power",
  // A ground that some current lifts reads above, one that nothing joins to ground reads anything.
  low: -GROUND_MAX,
  high: GROUND_MAX,
  unit: "V",
  source: PRACTICE,
};

function judgeSupplyPin(
  reading: Reading,
  place: TestPoint,
  pin: DevicePin,
  ctx: LogContext,
): Judgement | undefined {
  const { device, family } = place;
  if (!device) return undefined;
  const window = supplyWindow(pin, device, family);
  const fed = fedBy(place, pin, ctx, reading);
  if (fed.kind === "contradiction")
    return unjudged(reading, place, `It reads ${reading.value.typed}. ${fed.reason}`);
  if (fed.kind === "known" && fed.feed.name === "ground") return judgeWindow(reading, place, GROUND, ctx);
  const rail = fed.kind === "known" ? fed.feed.rail : undefined;
  if (rail) return onRail(reading, place, window, rail, ctx);
  if (fed.kind === "several") return onOneOf(reading, place, window, fed, ctx);
  if (window) return judgeWindow(reading, place, ofWindow(place, window), ctx);
  // Nothing below ground is on the board: such a part then works from one supply.
  if (isNegativeSupply(pin, device, family) && nearGround(reading))
    return judgeWindow(reading, place, GROUND, ctx);
  return undefined;
}

/** The rail's own limits and the device's together; a memory on a rail below its supply is kept alive by it. */
function onRail(
  reading: Reading,
  place: TestPoint,
  window: SupplyWindow | undefined,
  rail: Rail,
  ctx: LogContext,
): Judgement {
  const limits = railReference(rail, ctx);
  const nominal = siValue(rail.nominal, "V") ?? 0;
  const of = `${place.pin?.name} of ${place.ref}, on the ${rail.name} rail`;
  const fits = !window || (window.low <= nominal && nominal <= window.high);
  if (!fits && window && !keepsAlive(place, nominal, window)) {
    const found = judgeWindow(reading, place, ofWindow(place, window), ctx);
    return found.verdict === "within-limits"
      ? unjudged(
          reading,
          place,
          `It reads ${reading.value.typed}, but the board has this pin on ${rail.name}, which ${ofWindow(place, window).of} does not allow. Correct one of them.`,
        )
      : found;
  }
  const isMadeForOne = fits && window && spanOf(window) <= ONE_VOLTAGE;
  // What is usual for a rail of such a name says less than the sheet of the chip it feeds.
  if (isMadeForOne && window && (!limits || limits.kind === "family"))
    return judgeWindow(
      reading,
      place,
      { ...ofWindow(place, window), aside: `on the ${rail.name} rail` },
      ctx,
    );
  if (!limits)
    return unjudged(
      reading,
      place,
      `It reads ${reading.value.typed}. Nothing gives limits for ${rail.name}.`,
    );
  const low = isMadeForOne && window ? Math.max(window.low, limits.low ?? window.low) : limits.low;
  const high = isMadeForOne && window ? Math.min(window.high, limits.high ?? window.high) : limits.high;
  return judgeWindow(reading, place, { ...limits, ...ends(low, high), of }, ctx);
}

const ends = (low: number | undefined, high: number | undefined) => ({
  ...(low === undefined ? {} : { low }),
  ...(high === undefined ? {} : { high }),
});

const spanOf = ({ low, high }: SupplyWindow): number => {
  const [small, large] = [Math.abs(low), Math.abs(high)].sort((a, b) => a - b);
  return small === undefined || large === undefined || small === 0 ? Number.POSITIVE_INFINITY : large / small;
};

const keepsAlive = ({ device, family }: TestPoint, nominal: number, { low }: SupplyWindow): boolean =>
  nominal > 0 &&
  nominal < low &&
  (device?.kind === "memory" || family?.id === "CMOS" || family?.id === "4000");

/** Several rails could feed it: a reading of one of them is in order, one of none is not. */
function onOneOf(
  reading: Reading,
  place: TestPoint,
  window: SupplyWindow | undefined,
  { feeds }: Extract<Fed, { kind: "several" }>,
  ctx: LogContext,
): Judgement | undefined {
  const read = extentOf(reading.value)?.low;
  const nearest = feeds
    .flatMap(({ rail, volts }) => (rail && read !== undefined ? [{ rail, off: Math.abs(volts - read) }] : []))
    .sort((a, b) => a.off - b.off)[0];
  if (!nearest) return undefined;
  const found = onRail(reading, place, window, nearest.rail, ctx);
  if (found.verdict === "within-limits" || found.verdict === "unjudged") return found;
  const against = window && judgeWindow(reading, place, ofWindow(place, window), ctx);
  // The chip takes it, but no rail of the board reads so.
  return against?.verdict === "within-limits" ? { ...found, verdict: "suspect" } : found;
}

const nearGround = ({ value }: Reading): boolean => {
  const extent = extentOf(value);
  return extent !== undefined && Math.abs(extent.low) <= GROUND_MAX && Math.abs(extent.high) <= GROUND_MAX;
};

function judgeWindow(reading: Reading, place: TestPoint, reference: Reference, ctx: LogContext): Judgement {
  const extent = extentOf(reading.value);
  if (!extent) return unjudged(reading, place, "Not a voltage: nothing to compare.");
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "dc-volts");
  const found = compareWith(reference, extent, uncertainty);
  const { verdict, side } = found;
  const isGround = place.pin?.direction === "ground" && reference.kind === "physics";
  const says: Saying = {
    fact: `${reading.value.typed}; ${isGround ? "a ground pin" : "this supply pin"} should read ${windowText(reference)}.`,
    ...(verdict === "within-limits"
      ? {}
      : isGround
        ? {
            cause: "Its joint, its socket contact or the track is open or resistive.",
            step: "Check those first.",
          }
        : {
            cause: "The rail is wrong, or the track to this pin is open.",
            step: "Correct that before you read any other pin.",
          }),
  };
  const formula = comparisonText(found, "bench");
  const ruling: Assessment = { ok: true, verdict, side, says, formula, source: reference.source };
  return judgementFrom(reading, place, ruling, CODE, { reference, uncertainty });
}

const ofWindow = (place: TestPoint, { low, high, source }: SupplyWindow): Reference => ({
  kind: "family",
  of: supplyOfWhat(place),
  low,
  high,
  unit: "V",
  source,
});

/** "the supply of standard TTL"; where a part takes several, the pin is named. */
function supplyOfWhat({ pin, device, family, part }: TestPoint): string {
  const number = part?.device ?? device?.id ?? "";
  const names = new Set((device ? suppliesOf(device) : []).map(({ name }) => name));
  if (names.size > 1) return `${pin?.name} of a ${number}`;
  return device?.limits.has("supply") ? `the supply of a ${number}` : `the supply of ${family?.title}`;
}

/** What a fixed regulator is made to give. */
function regulatorOutput(reading: Reading, place: TestPoint, ctx: LogContext): Judgement | undefined {
  const extent = extentOf(reading.value);
  const window = place.pin?.direction === "output" && place.device ? outputWindow(place.device) : undefined;
  if (!extent || !window) return undefined;
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "dc-volts");
  const reference: Reference = {
    kind: "family",
    of: `the output of a ${place.part?.device ?? place.device?.id}`,
    ...window,
    unit: "V",
  };
  const found = compareWith(reference, extent, uncertainty);
  const { verdict, side, limit } = found;
  const isMore = (limit === "high") === window.low >= 0;
  const says: Saying = {
    fact: `${reading.value.typed}; ${reference.of} is ${windowText(reference)}.`,
    ...(verdict === "within-limits"
      ? {}
      : isMore
        ? { cause: "It is shorted through or has lost its ground.", step: "Switch off first." }
        : {
            cause: "Its input is low, or its output is overloaded.",
            step: "Read its input under load, then check what is on its output.",
          }),
  };
  const formula = comparisonText(found, "bench");
  const ruling: Assessment = { ok: true, verdict, side, says, formula, source: reference.source };
  return judgementFrom(reading, place, ruling, REGULATOR_CODE, { reference, uncertainty });
}

/** What a negative reading of a place may be: undefined where nothing on the board stands below ground. */
export function mayBeNegative(place: TestPoint | undefined, { board }: LogContext): boolean {
  const { device, family } = place ?? {};
  if (board && feedsOf(board.value).some(({ volts }) => volts < 0)) return true;
  return device !== undefined && suppliesOf(device).some((pin) => isNegativeSupply(pin, device, family));
}

export const voltsText = (volts: number): string => formatValue(volts, "V");
