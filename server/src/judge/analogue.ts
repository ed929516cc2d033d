// Pins that carry no logic level: amplifiers, timers, crystals, serial lines. Between their supplies they may stand anywhere,
// so only what no such circuit can do is told, and where the device says where a pin stands by itself.

import { defined } from "../base/defined";
import type { Side } from "../compute/limits/compare";
import type { Assessment, Verdict } from "../compute/verdict";
import type { PinSignal } from "../knowledge/types";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import type { Saying } from "../text/saying";
import { windowText } from "./compare";
import type { LogContext } from "./context";
import { deviceLimit } from "./device-limits";
import { fedBy, feedsOf } from "./feeding";
import { judgementFrom, unjudged } from "./judgement-from";
import { isNegativeSupply, suppliesOf, supplyPinOf } from "./supply-window";
import type { TestPoint } from "./test-point";
import type { Judgement, Reference } from "./types";

const CODE = "level-undefined";
const PRACTICE = "common practice, no source";
/** How far past its supplies a pin may read, volts: common practice, no source. */
const BEYOND = 0.5;
/** EIA-232: an output gives this at least either side of ground, an input needs this; volts, from memory. */
const LINE_OUT = 5;
const LINE_IN = 3;
const LINE_MOST = 25;
const LINE_SOURCE = "EIA-232 levels, from memory";
/** A timer's output: how far below its supply high may be and how far above ground low may be; volts, from memory. */
const TIMER_HIGH = 2.5;
const TIMER_LOW = 1;
const TIMER_SOURCE = "NE555 data sheet, from memory";

interface Read {
  readonly volts: number;
  readonly uncertainty: number;
}

interface Bounds {
  /** Absent where no rail is known that could feed it. */
  readonly low?: number;
  readonly high?: number;
  /** True where one rail is known to feed the positive supply. */
  readonly isSure: boolean;
}

export function judgeAnalogue(
  reading: Reading,
  place: TestPoint,
  ctx: LogContext,
  read: Read,
  signal: PinSignal,
): Judgement | undefined {
  if (signal === "line") return judgeLine(reading, place, read);
  const { device, pin } = place;
  if (!device || !pin) return undefined;
  if (pin.direction === "passive" && !pin.share) return clampCommon(reading, place, ctx, read);
  const bounds = boundsOf(place, ctx, reading);
  const { volts, uncertainty } = read;
  const { low } = bounds;
  const stands = pin.direction === "open-collector" ? deviceLimit(device, "off-state")?.[1] : undefined;
  const high = stands ?? bounds.high;
  if (high !== undefined && volts - uncertainty > (deviceLimit(device, "input")?.[1] ?? high) + BEYOND)
    return told(reading, place, read, "out-of-limits", {
      side: "high",
      reference: { kind: "physics", of: "what feeds the chip", high, unit: "V", source: PRACTICE },
      says: {
        fact: `${formatValue(volts, "V")} is above the supply of ${formatValue(high, "V")}.`,
        cause: "A higher supply reaches this pin.",
        step: "Switch off and look for a short to it.",
      },
    });
  if (low !== undefined && volts + uncertainty < low - BEYOND)
    return told(reading, place, read, "out-of-limits", {
      side: "low",
      reference: { kind: "physics", of: "what feeds the chip", low, unit: "V", source: PRACTICE },
      says: {
        fact: `${formatValue(volts, "V")} is below ${low === 0 ? "ground" : `the supply of ${formatValue(low, "V")}`}.`,
        cause: "A more negative supply reaches this pin.",
        step: "Switch off and look for a short to it.",
      },
    });
  if (pin.share && bounds.isSure && high !== undefined && low !== undefined)
    return restingAt(reading, place, read, pin.share, low, high);
  if (signal === "switching" && bounds.isSure && high !== undefined)
    return timerOutput(reading, place, read, high);
  return unjudged(reading, place, `It reads ${reading.value.typed}. ${why(signal, bounds)}`);
}

function why(signal: PinSignal, { low, high }: Bounds): string {
  if (signal === "oscillator")
    return "A crystal's pin swings around half the supply, and a meter loads it. Look with an oscilloscope.";
  const between =
    low !== undefined && high !== undefined ? ` (${formatValue(low, "V")} to ${formatValue(high, "V")})` : "";
  return `An analogue pin can be anywhere between its supplies${between}. Compare a sister stage, or add what it should read to the board file.`;
}

/** Between ground or the lowest rail that could feed it and the highest. */
function boundsOf(place: TestPoint, ctx: LogContext, reading: Reading): Bounds {
  const { device, family } = place;
  if (!device) return { isSure: false };
  const supplies = suppliesOf(device);
  const below = supplies.find((pin) => isNegativeSupply(pin, device, family));
  const above = supplyPinOf(undefined, device);
  const volts = (pin: typeof below): { all: number[]; isSure: boolean } => {
    const fed = pin && fedBy(place, pin, ctx, reading);
    if (fed?.kind === "known") return { all: [fed.feed.volts], isSure: true };
    return { all: fed?.kind === "several" ? fed.feeds.map((feed) => feed.volts) : [], isSure: false };
  };
  const top = volts(above);
  const bottom = volts(below);
  const low = below ? (bottom.all.length > 0 ? Math.min(...bottom.all, 0) : undefined) : 0;
  return defined({
    low,
    high: top.all.length > 0 ? Math.max(...top.all) : undefined,
    isSure: top.isSure,
  });
}

/** "two thirds of the supply": where a pin stands by itself; a circuit may well hold it elsewhere. */
function restingAt(
  reading: Reading,
  place: TestPoint,
  read: Read,
  share: readonly [number, number],
  low: number,
  high: number,
): Judgement {
  const [from, to] = share.map((part) => low + part * (high - low));
  const reference: Reference = defined({
    kind: "family",
    of: `where ${place.pin?.name} of a ${place.part?.device ?? place.device?.id} is by itself at ${formatValue(high, "V")}`,
    low: from,
    high: to,
    unit: "V",
    source: place.device?.source ?? PRACTICE,
  });
  const isIn = from !== undefined && to !== undefined && read.volts >= from && read.volts <= to;
  return told(reading, place, read, isIn ? "within-limits" : "suspect", {
    side: isIn ? undefined : read.volts < (from ?? 0) ? "low" : "high",
    reference,
    says: {
      fact: `${formatValue(read.volts, "V")}; by itself it is at ${windowText(reference)}.`,
      ...(isIn
        ? {}
        : {
            cause: "The circuit holds it elsewhere, or the part or something on the pin is bad.",
            step: "Compare a sister stage.",
          }),
    },
  });
}

function timerOutput(reading: Reading, place: TestPoint, read: Read, high: number): Judgement {
  const { volts } = read;
  const isHigh = volts >= high - TIMER_HIGH;
  const isLow = volts <= Math.max(TIMER_LOW, 0.1 * high);
  const reference: Reference = {
    kind: "family",
    of: "a timer's output",
    low: high - TIMER_HIGH,
    unit: "V",
    source: TIMER_SOURCE,
  };
  return told(reading, place, read, isHigh || isLow ? "within-limits" : "suspect", {
    side: isHigh || isLow ? undefined : "low",
    reference,
    says:
      isHigh || isLow
        ? {
            fact: `${formatValue(volts, "V")} is ${isHigh ? "high" : "low"} at its supply of ${formatValue(high, "V")}.`,
          }
        : {
            fact: `${formatValue(volts, "V")} is neither low nor high at its supply of ${formatValue(high, "V")}.`,
            cause: "It moves and this is an average, or it is overloaded.",
            step: "Look with an oscilloscope first.",
          },
  });
}

function judgeLine(reading: Reading, place: TestPoint, read: Read): Judgement {
  const size = Math.abs(read.volts);
  const isOutput = place.pin?.direction === "output";
  const least = isOutput ? LINE_OUT : LINE_IN;
  const reference: Reference = {
    kind: "physics",
    of: `a serial line's ${isOutput ? "output" : "input"}, either side of ground`,
    low: least,
    high: LINE_MOST,
    unit: "V",
    source: LINE_SOURCE,
  };
  if (size - read.uncertainty > LINE_MOST)
    return told(reading, place, read, "out-of-limits", {
      side: "high",
      reference,
      says: {
        fact: `${formatValue(read.volts, "V")} is more than the ${formatValue(LINE_MOST, "V")} a serial line carries.`,
        cause: "Another supply reaches it.",
        step: "Switch off and look for a short to it.",
      },
    });
  if (size + read.uncertainty >= least)
    return told(reading, place, read, "within-limits", {
      side: undefined,
      reference,
      says: {
        fact: `${formatValue(read.volts, "V")} is a line ${read.volts < 0 ? "at mark" : "at space"} (at least ${formatValue(least, "V")} either side of ground).`,
      },
    });
  if (!isOutput)
    return unjudged(
      reading,
      place,
      `It reads ${reading.value.typed}. With nothing plugged in a serial input is near ground, so this says nothing.`,
    );
  return told(reading, place, read, "out-of-limits", {
    side: "low",
    reference,
    says: {
      fact: `${formatValue(read.volts, "V")} is neither mark nor space: at least ${formatValue(least, "V")} either side of ground.`,
      cause: "A supply of the line driver is missing, or the line is overloaded.",
      step: "Read both its supplies, then unplug the line and read again.",
    },
  });
}

/** The common of clamp diodes belongs on the supply of the loads, where one is known. */
function clampCommon(reading: Reading, place: TestPoint, ctx: LogContext, read: Read): Judgement | undefined {
  const { device, pin } = place;
  const rated = device && deviceLimit(device, "off-state")?.[1];
  if (!device || !pin || rated === undefined || !/^(?:COM|K\d?)$/i.test(pin.name)) return undefined;
  const { volts } = read;
  const rails = ctx.board ? feedsOf(ctx.board.value) : [];
  const rail = rails.find((each) => each.volts > 0 && volts >= 0.7 * each.volts && volts <= 1.5 * each.volts);
  const reference: Reference = {
    kind: "family",
    of: `what the clamps of a ${place.part?.device ?? device.id} are rated for`,
    high: rated,
    unit: "V",
    source: device.source,
  };
  if (volts > rated)
    return told(reading, place, read, "out-of-limits", {
      side: "high",
      reference,
      says: {
        fact: `${formatValue(volts, "V")} is more than the ${formatValue(rated, "V")} this chip is rated for.`,
        cause: "The wrong supply reaches its clamps.",
        step: "Switch off first.",
      },
    });
  if (!rail)
    return unjudged(
      reading,
      place,
      `It reads ${reading.value.typed}, which is no rail known here. Where the chip drives coils, its common belongs on their supply.`,
    );
  return told(reading, place, read, "within-limits", {
    side: undefined,
    reference,
    says: { fact: `${formatValue(volts, "V")} is ${rail.name}, where the clamps of a coil driver belong.` },
  });
}

function told(
  reading: Reading,
  place: TestPoint,
  read: Read,
  verdict: Verdict,
  { side, reference, says }: { side: Side | undefined; reference: Reference; says: Saying },
): Judgement {
  const formula = `${reading.value.typed}; ${windowText(reference)}`;
  const ruling: Assessment = { ok: true, verdict, side, says, formula, source: reference.source };
  return judgementFrom(reading, place, ruling, CODE, { reference, uncertainty: read.uncertainty });
}
