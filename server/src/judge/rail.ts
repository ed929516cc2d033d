import { defined } from "../base/defined";
import type { Extent, Side } from "../compute/limits/compare";
import { comparisonText } from "../compute/limits/text";
import { railText } from "../knowledge/tolerance";
import type { Board, Rail } from "../knowledge/types";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import { parseQuantity } from "../quantity/quantity";
import { locate } from "../syntax/yaml";
import type { Advice } from "../text/saying";
import { compareWith, doubtAdvice, extentOf, windowText } from "./compare";
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
  if (!extent) return { reading, verdict: "unjudged", says: { fact: "Not a voltage: nothing to compare." } };
  if (!rail) {
    const why = !typed
      ? "This row does not say which rail it is of."
      : ctx.board && hasBoardFile(ctx)
        ? `The board file has no rail called ${typed}.${others(ctx.board.value)}`
        : `"${typed}" does not say its voltage, so it has no limits. Name it by its voltage, as in "+5V".`;
    return { reading, verdict: "unjudged", says: { fact: why } };
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
      says: { fact: noLimits(rail, ripple, ctx) },
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
    says: {
      fact: ripple
        ? `${what}; the limit is ${formatValue(reference.high ?? 0, reference.unit)}.`
        : `${what}; it should be ${windowText(reference)}.`,
      ...(result.verdict === "within-limits"
        ? {}
        : result.verdict === "suspect" && !isNoLoad
          ? doubtAdvice(result, reference, reading.value, uncertainty)
          : advice(
              sideOf(result.side, reference),
              ripple,
              reversed(extent, reference),
              isUnregulated(rail) ? (saidLoad(reading) ?? "unsaid") : undefined,
            )),
    },
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
    return `${name} is given as ${nominal} \u00b1 ${tolerance}, which even a dead rail would meet. Correct its tolerance.`;
  const what = ripple ? "ripple limit" : "limits";
  if (hasBoardFile(ctx)) return `The board file gives no ${what} for ${name}.`;
  return ripple
    ? `Nothing gives a ripple limit for ${name}. Without a regulator it depends on the load and the capacitor.`
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
): Advice {
  if (swapped && !ripple)
    return {
      cause: "The value fits with the other sign.",
      step: "Check which lead was where, or the minus in the log.",
    };
  if (ripple)
    return {
      cause: "The reservoir capacitor is low, its joint is poor, or half of the bridge is open.",
      step: "Check them before you load the rail.",
    };
  if (unregulated === "unsaid" && side === "high")
    return {
      cause: "An unregulated rail rises with no load.",
      step: "Say in the heading whether it was loaded. If it was, check the mains tap and the winding.",
    };
  if (unregulated !== undefined && side === "high")
    return {
      cause: "No regulator holds this rail.",
      step: "Check the mains tap, the winding and the rail's name. Keep the board off it until it is right.",
    };
  return side === "high"
    ? {
        cause: "The regulator is shorted, or has lost its ground or sense connection.",
        step: "Switch off before the logic is harmed.",
      }
    : {
        cause: "Something loads it, or its supply is weak.",
        step: "Switch off. Read the rail's resistance to ground, then the regulator's input under load.",
      };
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
