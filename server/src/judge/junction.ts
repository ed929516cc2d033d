// A transistor's junctions, judged pair by pair with the row's other readings beside them.

import { judgeJunctions, MIRROR } from "../compute/circuit/junction";
import {
  DARLINGTON_BASE_EMITTER,
  isJunctionType,
  JUNCTION_PAIRS,
  type JunctionPair,
  type JunctionType,
  type JunctionWindow,
  USUAL_WINDOWS,
} from "../compute/circuit/junction-table";
import type { Assessment } from "../compute/verdict";
import type { Reading } from "../log/model";
import { sourcesOf } from "../text/saying";
import { extentOf } from "./compare";
import type { LogContext } from "./context";
import { judgeExpected } from "./expected";
import { judgementFrom, unjudged } from "./judgement-from";
import type { TestPoint } from "./test-point";
import { judgeTwoLead } from "./two-lead";
import type { Judgement } from "./types";
import { siValue, uncertaintyOf } from "./uncertainty";

const CODE = "junction-disproved";
const WINDOWS: readonly JunctionWindow[] = ["base-emitter", "base-collector", "body-diode", "gate-cathode"];

export function judgeJunction(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  const isTwoLead = reading.measure === "forward" || reading.measure === "reverse";
  if (!isTwoLead && !isPair(reading.measure)) return undefined;
  const expected = judgeExpected(reading, place, ctx);
  if (expected.verdict !== "unjudged") return expected;
  if (!isPair(reading.measure)) return judgeTwoLead(reading, place, ctx);
  const type = place?.device?.families.find(isJunctionType) ?? marked(reading, ctx);
  if (!type) {
    return unjudged(
      reading,
      place,
      `Nothing says what type of transistor this is, so it is not judged. Write its number beside it, as in "${reading.subject.ref?.text ?? "Q1"} (2N3904)".`,
    );
  }
  const readings: { [pair in JunctionPair]?: number } = {};
  for (const other of reading.table.readings) {
    if (other.row !== reading.row || !isPair(other.measure)) continue;
    const extent = extentOf(other.value);
    if (extent) readings[other.measure] = extent.low;
  }
  if (readings[reading.measure] === undefined) return undefined;
  const isTurned = leadsTurned(reading, type, readings);
  const measure = isTurned ? MIRROR[reading.measure] : reading.measure;
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "diode");
  const outcome = judgeJunctions({
    type,
    readings: isTurned ? mirrored(readings) : readings,
    uncertainty,
    ...ownWindows(place),
  });
  if (!outcome.ok) return unjudged(reading, place, outcome.reason);
  const pair = outcome.pairs.find((p) => p.pair === measure);
  if (!pair) return undefined;
  const { verdict, side, says, formula = "", saysUnproven = false } = pair;
  // What the readings suggest together is said once, at the first pair that is wrong.
  const first = outcome.pairs.find((p) => p.verdict === "out-of-limits");
  const hints = pair === first ? outcome.hints : [];
  const { source } = outcome;
  const ruling: Assessment = {
    ok: true,
    verdict,
    side,
    says: hints.length > 0 ? { ...says, cause: hints.map(({ suggests }) => suggests).join(" ") } : says,
    formula,
    source: sourcesOf(source, ...hints.map((hint) => hint.source)) ?? source,
    saysUnproven,
  };
  return judgementFrom(reading, place, ruling, CODE, { uncertainty });
}

type Readings = { [pair in JunctionPair]?: number };

/**
 * The leads were the other way round than the columns say: a note says so, or a junction of a PNP conducts, which
 * black on the base does.
 */
function leadsTurned({ subject }: Reading, type: JunctionType, { be, bc, eb, cb }: Readings): boolean {
  if (
    /\b(?:leads?|probes?)\b.*\b(?:swapped|reversed|turned)\b|\b(?:swapped|reversed)\s+leads?\b/i.test(
      subject.note?.text ?? "",
    )
  )
    return true;
  const conducts = (value: number | undefined): boolean =>
    value !== undefined && value > USUAL_WINDOWS["base-emitter"][0] && value < DARLINGTON_BASE_EMITTER[1];
  // The other one may be what is wrong with it.
  return type.startsWith("PNP") && eb === undefined && cb === undefined && (conducts(be) || conducts(bc));
}

function mirrored(readings: Readings): Readings {
  const turned: Readings = {};
  for (const pair of Object.keys(readings).filter(isPair)) {
    const value = readings[pair];
    if (value !== undefined) turned[MIRROR[pair]] = value;
  }
  return turned;
}

const isPair = (measure: string): measure is JunctionPair =>
  (JUNCTION_PAIRS as readonly string[]).includes(measure);

/** The type by the number marked on it, where the row says one. */
const marked = ({ subject }: Reading, ctx: LogContext) =>
  subject.part && ctx.library.device(subject.part.text)?.device.families.find(isJunctionType);

function ownWindows(place: TestPoint | undefined) {
  const device = place?.device;
  const windows: { [name in JunctionWindow]?: readonly [number, number] } = {};
  for (const name of WINDOWS) {
    const typed = device?.limits.get(name);
    const low = typed && siValue(typed[0], "V");
    const high = typed && siValue(typed[1], "V");
    if (low !== undefined && high !== undefined) windows[name] = [low, high];
  }
  return Object.keys(windows).length > 0 && device ? { windows, windowSource: device.source } : {};
}
