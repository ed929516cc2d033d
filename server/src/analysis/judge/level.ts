// A standing voltage on a logic pin.
import type { Family } from "../../knowledge/types";
import type { Reading } from "../../log/model";
import type { LogContext } from "../context";
import { familyLevels, type Levels } from "../logic/family-levels";
import { judgeLevel as ruleLevel } from "../logic/levels";
import { outputStage } from "../logic/output-stage";
import { inputTechnology } from "../logic/technology";
import { type Place, partPlace, pinPlace } from "../place";
import { compare, extentOf, windowText } from "./compare";
import { judgeExpected } from "./expected";
import { ruled, unjudged } from "./ruled";
import type { Judgement, Reference } from "./types";
import { siValue, uncertaintyOf } from "./uncertainty";

const CODE = "level-undefined";
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
  if (!extent || !pin || !family || extent.low !== extent.high) return undefined;
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "dc-volts");
  if (pin.direction === "ground" || pin.direction === "supply") {
    return powerPin(reading, place, family, uncertainty);
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
  const supply = supplyOf(family);
  const ruling = ruleLevel({
    volts: extent.low,
    uncertainty,
    receiving,
    ...(driving ? { driving } : {}),
    technology: inputTechnology(receiver.id),
    ...(supply === undefined ? {} : { supply }),
  });
  return ruled(reading, place, ruling, CODE, { uncertainty });
}

function powerPin(
  reading: Reading,
  place: Place,
  family: Family,
  uncertainty: number,
): Judgement | undefined {
  const extent = extentOf(reading.value);
  const ground = place.pin?.direction === "ground";
  const low = ground || !family.supply ? undefined : siValue(family.supply[0], "V");
  const high = ground ? GROUND_MAX : family.supply && siValue(family.supply[1], "V");
  if (!extent || high === undefined) return undefined;
  const reference: Reference = {
    kind: ground ? "physics" : "family",
    of: ground ? "a ground pin under power" : `the supply of ${family.title}`,
    ...(low === undefined ? {} : { low }),
    high,
    unit: "V",
    source: ground ? "common practice, no source" : family.source,
  };
  const { verdict, formula } = compare(extent, reference, uncertainty);
  const read = `It reads ${reading.value.typed}`;
  const sentence =
    verdict === "within-limits"
      ? `${read}, within ${windowText(reference)}, ${reference.of}.`
      : ground
        ? `${read}, where a ground pin is ${windowText(reference)}: its joint, its socket contact or the track is open or resistive.`
        : `${read}, where ${reference.of} is ${windowText(reference)}: put the rail right, or find the open track to this pin, before reading any other.`;
  return ruled(reading, place, { ok: true, verdict, sentence, formula, source: reference.source }, CODE, {
    reference,
    uncertainty,
  });
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
