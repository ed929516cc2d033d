import { defined } from "../base/defined";
import type { Extent, Side } from "../compute/limits/compare";
import { comparisonText } from "../compute/limits/text";
import { railText } from "../knowledge/tolerance";
import type { Board, Rail } from "../knowledge/types";
import type { Reading } from "../log/model";
import { parseQuantity } from "../quantity/quantity";
import { locate } from "../syntax/yaml";
import { compareWith, extentOf, straddleAdvice, windowText } from "./compare";
import { hasBoardFile, type LogContext } from "./context";
import { judgeCurrent } from "./current";
import { isUnregulated, saidLoad, withNoLoad } from "./no-load";
import { railAt } from "./rail-name";
import { boardReference } from "./reference";
import type { Judgement, Reference } from "./types";
import { siValue, uncertaintyOf } from "./uncertainty";

const CODE = "rail-out-of-tolerance";

/** A supply rail's voltage or ripple against the board file's nominal, tolerance and ripple limit. */
export function judgeRail(reading: Reading, ctx: LogContext): Judgement {
  const typed = reading.subject.rail?.text ?? reading.subject.ref?.text;
  const rail = ctx.board && railAt(reading.subject, ctx.board.value);
  const extent = extentOf(reading.value);
  if (!extent) return { reading, verdict: "unjudged", sentence: "Not a voltage: nothing to compare." };
  if (!rail) {
    const why = !typed
      ? "This row does not say which rail it is of."
      : ctx.board && hasBoardFile(ctx)
        ? `The board file has no rail called ${typed}.${others(ctx.board.value)}`
        : `"${typed}" does not say its voltage, so there are no limits to hold it against: name it by it, as in "+5V".`;
    return { reading, verdict: "unjudged", sentence: why };
  }
  if (reading.spec.quantity === "current") return judgeCurrent(reading, rail, ctx);
  const ripple = reading.measure === "ripple";
  const reference = ripple
    ? rippleReference(rail, ctx)
    : (boardReference(reading, undefined, "V", ctx) ?? ownReference(rail, reading, ctx));
  if (!reference) {
    return {
      reading,
      verdict: "unjudged",
      sentence: noLimits(rail, ripple, ctx),
    };
  }
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, ripple ? "ac-volts" : "dc-volts");
  const result = compareWith(reference, extent, uncertainty);
  const isNoLoad = result.isBetween && !ripple && isUnregulated(rail);
  const formula = comparisonText(result, "bench");
  const load = reading.table.section.qualifiers.load;
  const state = load ? ` ${load}` : "";
  const what = `${rail.name}${ripple ? " ripple" : ""} reads ${reading.value.typed || formula}${state}`;
  return defined({
    reading,
    verdict: result.verdict,
    side: result.side,
    code: result.verdict === "within-limits" ? undefined : CODE,
    reference,
    uncertainty,
    formula,
    sentence:
      result.verdict === "within-limits"
        ? `${what}: within ${windowText(reference)}, ${reference.of} (${reference.source}).`
        : `${what}; ${reference.of} is ${windowText(reference)} (${reference.source}). ${result.verdict === "suspect" && !isNoLoad ? straddleAdvice(reading.value, uncertainty) : advice(sideOf(result.side, reference), ripple, reversed(extent, reference), isUnregulated(rail) ? (saidLoad(reading) ?? "unsaid") : undefined)}`,
  });
}

function ownReference(rail: Rail, reading: Reading, ctx: LogContext): Reference | undefined {
  const reference = railReference(rail, ctx);
  return reference && withNoLoad(reference, rail, reading);
}

/** Of a negative rail the low side is too much and the high side too little. */
const sideOf = (side: Side | undefined, { high = 0 }: Reference): Side | undefined =>
  high >= 0 || !side ? side : side === "low" ? "high" : "low";

function others(board: Board): string {
  const names = [...board.rails.keys()];
  return names.length === 0 ? " It has no rails." : ` It has ${names.join(", ")}.`;
}

function noLimits({ name, nominal, tolerance }: Rail, ripple: boolean, ctx: LogContext): string {
  if (!ripple && siValue(nominal, "V") !== undefined && parseQuantity(tolerance, { unit: "%" }).ok)
    return `${name} is given as ${nominal} \u00b1 ${tolerance}, which takes in a dead rail and so says nothing: put its tolerance right.`;
  const what = ripple ? "ripple limit" : "limits";
  if (hasBoardFile(ctx)) return `The board file gives no ${what} for ${name}.`;
  return ripple
    ? `Nothing gives a ripple limit for ${name}: without a regulator it hangs on the load and the capacitor.`
    : `Nothing gives limits for ${name}.`;
}

/** True where only the sign is wrong: the leads were on the other way round, or the minus was left out. */
const reversed = ({ low, high }: Extent, reference: Reference): boolean =>
  compareWith(reference, { low: -high, high: -low }, 0).verdict === "within-limits";

function advice(
  side: Side | undefined,
  ripple: boolean,
  swapped: boolean,
  unregulated: "loaded" | "unloaded" | "unsaid" | undefined,
): string {
  if (swapped && !ripple)
    return "The value fits with the other sign: check which lead stood where, or the minus in the log.";
  if (ripple)
    return "The reservoir capacitor is low or its joint is poor, or one half of the bridge is open: check both before loading the rail.";
  if (unregulated === "unsaid" && side === "high")
    return "An unregulated rail rises when nothing loads it, which is ordinary: say in the heading whether it was loaded. Under load look at the mains tap and the winding.";
  if (unregulated !== undefined && side === "high")
    return "No regulator holds this rail: look at the mains tap, the winding and the name of the rail, and keep the board off it until it is right.";
  return side === "high"
    ? "Switch off before the logic is harmed: the regulator is shorted or has lost its ground or sense connection."
    : "Switch off and find what loads it: measure the rail's resistance to ground, then the regulator's input under load.";
}

/** Limits that nobody said: sound boards may lie outside, but not this many times as far. Common practice, no source. */
const USUAL_FAR = 2;

export function railReference(rail: Rail, ctx: LogContext): Reference | undefined {
  const nominal = siValue(rail.nominal, "V");
  if (rail.window) {
    const [low, high] = rail.window;
    const of = `the ${rail.name} rail (${railText(rail)})`;
    return {
      kind: rail.byName ? "family" : "board",
      of,
      low,
      high,
      unit: "V",
      source: rail.source ?? (rail.byName ? "its name" : "the board file"),
      ...link(rail, ctx),
    };
  }
  const tolerance = parseQuantity(rail.tolerance, { unit: "%" });
  if (nominal === undefined || !tolerance.ok) return undefined;
  const half =
    tolerance.quantity.dimension === "ratio"
      ? Math.abs(nominal) * tolerance.quantity.value
      : tolerance.quantity.value;
  // Limits that take in a dead rail say nothing.
  if (!(half >= 0 && half < Math.abs(nominal))) return undefined;
  return defined({
    kind: rail.byName ? "family" : "board",
    of: `the ${rail.name} rail (${railText(rail)})`,
    low: nominal - half,
    high: nominal + half,
    beyond: rail.usual ? { low: nominal - USUAL_FAR * half, high: nominal + USUAL_FAR * half } : undefined,
    unit: "V",
    source: rail.source ?? "the board file",
    ...link(rail, ctx),
  });
}

export function rippleReference(rail: Rail, ctx: LogContext): Reference | undefined {
  const high = rail.ripple === undefined ? undefined : siValue(rail.ripple, "V");
  if (high === undefined) return undefined;
  return defined({
    kind: rail.byName || rail.rippleIsUsual ? "family" : "board",
    of: `the ${rail.name} rail's ripple limit`,
    high,
    beyond: rail.byName || rail.rippleIsUsual ? { low: 0, high: USUAL_FAR * high } : undefined,
    unit: "V",
    source: rail.rippleIsUsual ? "common practice, no source" : (rail.source ?? "the board file"),
    ...link(rail, ctx),
  });
}

function link(rail: Rail, ctx: LogContext) {
  const at = ctx.board && locate(ctx.board.loaded.tree, ["rails", rail.name]);
  return at && ctx.board ? { link: { uri: ctx.board.uri, span: at } } : {};
}
