// Outputs that only pull, and transistors that switch a load: what they stand, and what they read on and off.

import type { Side } from "../compute/limits/compare";
import type { Assessment, Verdict } from "../compute/verdict";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import type { Saying } from "../text/saying";
import type { LogContext } from "./context";
import { deviceLimit } from "./device-limits";
import { fedBy, feedsOf } from "./feeding";
import { judgementFrom, unjudged } from "./judgement-from";
import { supplyPinOf } from "./supply-window";
import type { TestPoint } from "./test-point";
import type { Judgement, Reference } from "./types";

const CODE = "level-undefined";
const PRACTICE = "common practice, no source";
/** What a saturated output reads at most, volts, where its device does not say: one that carries a load. */
const ON = 1;
/** Of what an output pulls up to, a source driver loses no more than this, volts: from memory. */
const SOURCE_DROP = 3;
/** How far past a rail or a rating a meter may read before it counts, volts. */
const MARGIN = 0.5;
/** A transistor that is on reads no more than this, a Darlington with a load included; volts. */
const SWITCHED_ON = 2;
/** Share of a rail that an output reads at least when it is off and a load or a resistor pulls it up. */
const NEAR_RAIL = 0.7;

interface Read {
  readonly volts: number;
  readonly uncertainty: number;
}

/** Undefined where the pin is no open output, or its reading is to be judged as a level. */
export function judgeOpenOutput(
  reading: Reading,
  place: TestPoint,
  ctx: LogContext,
  read: Read,
): Judgement | undefined {
  const { pin, device } = place;
  if (!pin || !device) return undefined;
  if (pin.direction === "open-emitter") return sourceOutput(reading, place, ctx, read);
  if (pin.direction !== "open-collector") return undefined;
  const { volts, uncertainty } = read;
  const rated = deviceLimit(device, "off-state")?.[1];
  const supply = rated === undefined ? supplyVolts(place, ctx, reading) : undefined;
  const stands = rated ?? supply;
  const number = place.part?.device ?? device.id;
  if (stands !== undefined && volts - uncertainty > stands + MARGIN)
    return told(reading, place, "out-of-limits", "high", uncertainty, {
      reference: limit(
        rated === undefined ? `the supply of ${place.ref}` : `what an output of a ${number} is rated for`,
        stands,
        device.source,
      ),
      says:
        rated === undefined
          ? {
              fact: `${formatValue(volts, "V")} is above the supply of ${formatValue(stands, "V")}.`,
              cause: "A higher supply reaches this output.",
              step: "Switch off and look for a short to it.",
            }
          : {
              fact: `${formatValue(volts, "V")} is more than the ${formatValue(stands, "V")} an output of a ${number} is rated for.`,
              cause: "The wrong chip is fitted, or a higher supply reaches it.",
              step: "Switch off first.",
            },
      source: rated === undefined ? PRACTICE : device.source,
    });
  const on = deviceLimit(device, "on-state")?.[1] ?? (device.kind === "interface" ? ON : undefined);
  if (on !== undefined && volts > -MARGIN && volts <= on + uncertainty)
    return told(reading, place, "within-limits", undefined, uncertainty, {
      reference: limit(`an output of a ${number} that is on`, on, device.source),
      says: { fact: `${formatValue(volts, "V")} is an output that is on (at most ${formatValue(on, "V")}).` },
      source: device.source,
    });
  if (rated !== undefined && volts >= HIGH)
    return told(reading, place, "within-limits", undefined, uncertainty, {
      reference: limit(`what an output of a ${number} is rated for`, rated, device.source),
      says: {
        fact: `${formatValue(volts, "V")} is an output that is off and pulled up; it is rated for ${formatValue(rated, "V")}.`,
      },
      source: device.source,
    });
  return undefined;
}

/** From here on an open output is taken for pulled up, volts: the least high level of TTL. */
const HIGH = 2;

/** A source driver: near its supply when it is on, near ground when it is off. */
function sourceOutput(
  reading: Reading,
  place: TestPoint,
  ctx: LogContext,
  read: Read,
): Judgement | undefined {
  const { volts, uncertainty } = read;
  const { device, pin } = place;
  const supply = supplyVolts(place, ctx, reading);
  if (!device || !pin || supply === undefined)
    return unjudged(
      reading,
      place,
      `It reads ${reading.value.typed}. It depends on the supply it switches, and no rail is known for it. Read the supply pin too.`,
    );
  const name = `${place.ref}'s supply of ${formatValue(supply, "V")}`;
  if (volts - uncertainty > supply + Math.max(MARGIN, 0.1 * supply))
    return told(reading, place, "out-of-limits", "high", uncertainty, {
      reference: limit(name, supply, PRACTICE),
      says: {
        fact: `${formatValue(volts, "V")} is above ${name}.`,
        cause: "A higher supply reaches this output.",
        step: "Switch off and look for a short to it.",
      },
      source: PRACTICE,
    });
  const isOn = volts >= supply - SOURCE_DROP;
  if (isOn || volts <= ON)
    return told(reading, place, "within-limits", undefined, uncertainty, {
      reference: limit(name, supply, PRACTICE),
      says: { fact: `${formatValue(volts, "V")} is an output that is ${isOn ? `on, near ${name}` : "off"}.` },
      source: PRACTICE,
    });
  return told(reading, place, "suspect", "low", uncertainty, {
    reference: limit(name, supply, PRACTICE),
    says: {
      fact: `${formatValue(volts, "V")} is neither off nor near ${name}.`,
      cause: "It moves and this is an average, or the output is weak or overloaded.",
      step: "Look with an oscilloscope first.",
    },
    source: PRACTICE,
  });
}

/** A transistor's collector or drain; what its base and emitter read hangs on the circuit. */
export function judgeSwitch(reading: Reading, place: TestPoint, ctx: LogContext, read: Read): Judgement {
  const { volts, uncertainty } = read;
  const { pin, device } = place;
  const isSwitch = /^(?:C|COLLECTOR|D|DRAIN)$/i.test(pin?.name ?? "");
  const rated = device && deviceLimit(device, "off-state")?.[1];
  const isPositive = device?.families.some((family) => /^(?:NPN|N-)/i.test(family)) === true;
  if (!device || !pin || !isSwitch || rated === undefined || !isPositive)
    return unjudged(
      reading,
      place,
      `It reads ${reading.value.typed}. What this leg of a ${place.part?.device ?? device?.id} should read depends on its circuit. Compare a sister stage.`,
    );
  const number = place.part?.device ?? device.id;
  const reference = limit(`what a ${number} is rated for`, rated, device.source);
  if (volts - uncertainty > rated)
    return told(reading, place, "out-of-limits", "high", uncertainty, {
      reference,
      says: {
        fact: `${formatValue(volts, "V")} is more than the ${formatValue(rated, "V")} a ${number} is rated for.`,
        cause: "The wrong part is fitted, or its clamp diode is open.",
        step: "Switch off first.",
      },
      source: device.source,
    });
  const isOn = volts > -1 && volts <= SWITCHED_ON;
  const rails = ctx.board ? feedsOf(ctx.board.value) : [];
  const pulled = rails.find(
    (rail) => rail.volts > 0 && volts >= NEAR_RAIL * rail.volts && volts <= 1.5 * rail.volts,
  );
  if (isOn || pulled)
    return told(reading, place, "within-limits", undefined, uncertainty, {
      reference,
      says: {
        fact: isOn
          ? `${formatValue(volts, "V")} is a transistor that is on.`
          : `${formatValue(volts, "V")} is a transistor that is off, with ${pulled?.name} behind its load; it is rated for ${formatValue(rated, "V")}.`,
      },
      source: device.source,
    });
  return unjudged(
    reading,
    place,
    `It reads ${reading.value.typed}, neither on nor at a rail. A load driven in pulses shows an average. Look with an oscilloscope.`,
  );
}

function supplyVolts(place: TestPoint, ctx: LogContext, reading: Reading): number | undefined {
  const supply = place.device && supplyPinOf(place.pin, place.device);
  if (!supply) return undefined;
  const fed = fedBy(place, supply, ctx, reading);
  if (fed.kind === "known") return fed.feed.volts;
  return fed.kind === "several" ? Math.max(...fed.feeds.map(({ volts }) => volts)) : undefined;
}

const limit = (of: string, high: number, source: string): Reference => ({
  kind: "family",
  of,
  high,
  unit: "V",
  source,
});

function told(
  reading: Reading,
  place: TestPoint,
  verdict: Verdict,
  side: Side | undefined,
  uncertainty: number,
  { reference, says, source }: { reference: Reference; says: Saying; source: string },
): Judgement {
  const formula = `${reading.value.typed} ${verdict === "out-of-limits" ? ">" : "\u2264"} ${formatValue(reference.high ?? 0, "V")}`;
  const ruling: Assessment = { ok: true, verdict, side, says, formula, source };
  return judgementFrom(reading, place, ruling, CODE, { reference, uncertainty });
}
