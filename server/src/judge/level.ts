// A standing voltage on a logic pin.

import { defined } from "../base/defined";
import { comparisonText } from "../compute/limits/text";
import { familyLevels, type Levels } from "../compute/logic/family-levels";
import { judgeLevel as ruleLevel } from "../compute/logic/levels";
import { outputStage } from "../compute/logic/output-stage";
import { inputTechnology } from "../compute/logic/technology";
import type { Ruling } from "../compute/verdict";
import type { Family } from "../knowledge/types";
import type { Reading } from "../log/model";
import { compareWith, extentOf, windowText } from "./compare";
import type { LogContext } from "./context";
import { judgeExpected } from "./expected";
import { isMoving } from "./moving";
import { type Place, partPlace, pinPlace } from "./place";
import { ruled, unjudged } from "./ruled";
import { outputWindow, supplyWindow } from "./supply-window";
import type { Judgement, Reference } from "./types";
import { siValue, uncertaintyOf } from "./uncertainty";

const CODE = "level-undefined";
/** A regulator's output is a rail, whoever named it. */
const REGULATOR_CODE = "rail-out-of-tolerance";
/** A ground pin under power carries its own current's drop: common practice, no source. */
const GROUND_MAX = 0.1;

/** Judged by the input that reads the node: the pin itself, or for an output the first input on its net. */
export function judgeLevel(
  reading: Reading,
  place: Place | undefined,
  ctx: LogContext,
): Judgement | undefined {
  if (reading.spec.quantity !== "voltage" || !place) return undefined;
  const expected = judgeExpected(reading, place, ctx);
  if (expected.verdict !== "unjudged") return expected;
  const extent = extentOf(reading.value);
  const { pin, family } = place;
  if (!extent || !pin || extent.low !== extent.high) return undefined;
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "dc-volts");
  const power = judgePower(reading, place, ctx);
  if (power || !family || pin.direction === "ground" || pin.direction === "supply") return power;
  if (isMoving(reading.subject.note?.text)) {
    return unjudged(
      reading,
      place,
      `It reads ${reading.value.typed} of a line that moves: a meter shows the average, which is no level.`,
    );
  }
  const direction = pin.direction;
  if (direction === "passive" || direction === "not-connected") return undefined;
  const stage = outputStage(direction);
  const own = familyLevels(family);
  const receiver = stage && direction !== "bidirectional" ? (receivingFamily(place, ctx) ?? family) : family;
  const receiving = familyLevels(receiver);
  if (!receiving.ok) return unjudged(reading, place, receiving.reason);
  // CMOS sheets promise levels of an output without a load, which no output on a board is.
  const promises = own.ok && stage === "push-pull" && inputTechnology(family.id) === "ttl";
  const driving: Levels | undefined = promises ? own : undefined;
  // What an open collector is pulled up to is what the board made it; it may be more than its own supply.
  const isOpen = direction === "open-collector" || direction === "open-emitter";
  const supply = isOpen ? undefined : supplyOf(family);
  const ruling = ruleLevel(
    defined({
      volts: extent.low,
      uncertainty,
      receiving,
      driving,
      technology: inputTechnology(receiver.id),
      supply,
    }),
  );
  return ruled(reading, place, ruling, CODE, { uncertainty });
}

/** A pin that feeds or is fed: ground, a supply, a regulator's output; undefined for any other. */
export function judgePower(reading: Reading, place: Place, ctx: LogContext): Judgement | undefined {
  const direction = place.pin?.direction;
  if (reading.spec.quantity !== "voltage" || reading.measure === "ripple") return undefined;
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "dc-volts");
  if (direction === "ground" || direction === "supply") return powerPin(reading, place, uncertainty);
  return place.device?.kind === "regulator" ? regulatorOutput(reading, place, uncertainty) : undefined;
}

function powerPin(reading: Reading, place: Place, uncertainty: number): Judgement | undefined {
  const extent = extentOf(reading.value);
  const { pin, device, family } = place;
  const ground = pin?.direction === "ground";
  const window = ground || !pin || !device ? undefined : supplyWindow(pin, device, family);
  if (!extent || (!ground && !window)) return undefined;
  const reference: Reference = window
    ? { kind: "family", of: supplyOfWhat(place), ...window, unit: "V" }
    : {
        kind: "physics",
        of: "a ground pin under power",
        // A ground that some current lifts reads above, one that nothing joins to ground reads anything.
        low: -GROUND_MAX,
        high: GROUND_MAX,
        unit: "V",
        source: "common practice, no source",
      };
  const found = compareWith(reference, extent, uncertainty);
  const { verdict, side } = found;
  const read = `It reads ${reading.value.typed}`;
  const sentence =
    verdict === "within-limits"
      ? `${read}, within ${windowText(reference)}, ${reference.of}.`
      : ground
        ? `${read}, where a ground pin is ${windowText(reference)}: its joint, its socket contact or the track is open or resistive.`
        : `${read}, where ${reference.of} is ${windowText(reference)}: put the rail right, or find the open track to this pin, before reading any other.`;
  const formula = comparisonText(found, "bench");
  const ruling: Ruling = { ok: true, verdict, side, sentence, formula, source: reference.source };
  return ruled(reading, place, ruling, CODE, { reference, uncertainty });
}

/** "the supply of standard TTL"; where a part takes several, the pin is named. */
function supplyOfWhat({ pin, device, family, part }: Place): string {
  const several = [...(device?.pins.values() ?? [])].filter(({ direction }) => direction === "supply");
  const names = new Set(several.map(({ name }) => name));
  const number = part?.device ?? device?.id ?? "";
  if (names.size > 1) return `${pin?.name} of a ${number}`;
  return device?.limits.has("supply") ? `the supply of a ${number}` : `the supply of ${family?.title}`;
}

/** What a fixed regulator is made to give. */
function regulatorOutput(reading: Reading, place: Place, uncertainty: number): Judgement | undefined {
  const extent = extentOf(reading.value);
  const window = place.pin?.direction === "output" && place.device ? outputWindow(place.device) : undefined;
  if (!extent || !window) return undefined;
  const reference: Reference = {
    kind: "family",
    of: `the output of a ${place.part?.device ?? place.device?.id}`,
    ...window,
    unit: "V",
  };
  const found = compareWith(reference, extent, uncertainty);
  const { verdict, side, limit } = found;
  const read = `It reads ${reading.value.typed}`;
  const isMore = (limit === "high") === window.low >= 0;
  const sentence =
    verdict === "within-limits"
      ? `${read}, within ${windowText(reference)}, ${reference.of}.`
      : `${read}, where ${reference.of} is ${windowText(reference)}: ${isMore ? "it is shorted through or has lost its ground" : "read its input under load, then what hangs on its output"}.`;
  const formula = comparisonText(found, "bench");
  const ruling: Ruling = { ok: true, verdict, side, sentence, formula, source: reference.source };
  return ruled(reading, place, ruling, REGULATOR_CODE, { reference, uncertainty });
}

/** The family of the first input on the net, which is what has to understand the level. */
function receivingFamily(place: Place, ctx: LogContext): Family | undefined {
  const board = ctx.board?.value;
  for (const { ref, pin } of place.net?.pins ?? []) {
    const at = pinPlace(partPlace(ref, board, ctx.library), pin, board);
    if (at.pin?.direction === "input" && at.family?.levels) return at.family;
  }
  return undefined;
}

const supplyOf = (family: Family): number | undefined =>
  family.supply === undefined ? undefined : siValue(family.supply[1], "V");
