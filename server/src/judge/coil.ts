// A coil's resistance: what driver and fuse would have to carry, and whether the winding is what it should be.

import { defined } from "../base/defined";
import { type CurrentLimit, judgeCoil } from "../compute/circuit/coil";
import { compareToLimits } from "../compute/limits/compare";
import { comparisonText } from "../compute/limits/text";
import { type Assessment, gravest } from "../compute/verdict";
import type { Coil, Part } from "../knowledge/types";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import { parseQuantity } from "../quantity/quantity";
import { inWords, type Saying, sourcesOf } from "../text/saying";
import { upperFirst } from "../text/sentence";
import { amountOf, linkTo, partAt, railNominal } from "./board-parts";
import type { LogContext } from "./context";
import { judgeExpected } from "./expected";
import { judgementFrom, unjudged } from "./judgement-from";
import { accuracyGap, single } from "./measured";
import { findRail } from "./rail-name";
import { partTestPoint, type TestPoint } from "./test-point";
import type { Judgement, Reference } from "./types";
import { uncertaintyOf } from "./uncertainty";

const OVERLOAD = "coil-overload";
const ELSE = "outside-expected";
/** Windings are copper, which moves 0.4 % a degree, and leads add to them: common practice, no source. */
const USUAL_TOLERANCE = { value: 0.1, source: "common practice, no source" };

export function judgeCoilReading(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  if (reading.measure !== "resistance") return undefined;
  const expected = judgeExpected(reading, place, ctx);
  if (expected.verdict !== "unjudged") return expected;
  const coil = coilAt(reading, place, ctx);
  const resistance = single(reading.value);
  if (!coil || resistance === undefined) return undefined;
  const supply = railNominal(ctx.board && findRail(ctx.board.value, coil.supply));
  const gap = Number.isFinite(resistance) && resistance > 0 ? accuracyGap(ctx) : undefined;
  if (supply === undefined || supply === 0 || gap !== undefined) {
    const why = gap ?? `The board file gives no voltage of ${coil.supply}.`;
    return unjudged(
      reading,
      place,
      `${upperFirst(nameOf(coil, place))} reads ${reading.value.typed}. ${why}`,
    );
  }
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "ohms");
  const transistor = driverLimit(coil, ctx);
  const fuse = fuseLimit(coil, ctx);
  const load = judgeCoil(
    defined({
      supply: Math.abs(supply),
      resistance,
      uncertainty,
      transistor,
      fuse,
    }),
  );
  if (!load.ok) return unjudged(reading, place, load.reason);
  const whole = Number.isFinite(resistance) && resistance > 0;
  const winding = whole ? windingOf(coil, resistance, uncertainty) : undefined;
  const verdict = gravest([load.verdict, ...(winding ? [winding.verdict] : [])]);
  const overload = resistance === 0 || (whole && reported(load.verdict));
  // The gravest is told; what else there is to it stands beside it.
  const told = [...load.says, ...(winding ? [{ ...winding.says, verdict: winding.verdict }] : [])];
  const first = told.find((each) => each.verdict === verdict);
  const others = told.filter((each) => each !== first);
  const ruling: Assessment = {
    ok: true,
    verdict,
    side: load.verdict === verdict ? load.side : winding?.side,
    says: {
      ...first,
      fact: [`${upperFirst(nameOf(coil, place))} reads ${readText(resistance)}.`, first?.fact]
        .filter(Boolean)
        .join(" "),
      more: others.map(inWords).join(" "),
    },
    formula: [load.formula, winding?.formula].filter(Boolean).join("; "),
    source: sourcesOf(load.source, ...told.map(({ source }) => source)) ?? load.source,
    saysUnproven: winding?.verdict === "within-limits",
  };
  return judgementFrom(
    reading,
    place,
    ruling,
    overload ? OVERLOAD : ELSE,
    defined({
      uncertainty,
      reference:
        transistor || winding ? referenceOf(coil, Math.abs(supply), [transistor, fuse], ctx) : undefined,
    }),
  );
}

/** Ohms that the board file gives for the winding a reading is of. */
export const windingAt = (
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): number | undefined => {
  const coil = reading.measure === "resistance" ? coilAt(reading, place, ctx) : undefined;
  return amountOf(coil?.resistance, "resistance");
};

const reported = (verdict: Assessment["verdict"]): boolean =>
  verdict === "out-of-limits" || verdict === "suspect";

const readText = (ohms: number): string =>
  ohms === 0 ? "a short" : Number.isFinite(ohms) ? formatValue(ohms, "ohm") : "open";

/** Inside a sentence. The driver is not named again behind a place that names it. */
function nameOf({ title, driver }: Coil, place?: TestPoint): string {
  const of = place?.ref.toUpperCase() === driver.toUpperCase() ? "" : ` of ${driver}`;
  return title === undefined ? `the coil of ${driver}` : `the coil "${title}"${of}`;
}

/** By its driver, by a pin on the driver's own net (a connector), or by its title, in the item column or in place of a designator. */
function coilAt({ subject }: Reading, place: TestPoint | undefined, ctx: LogContext): Coil | undefined {
  const coils = ctx.board?.value.coils ?? [];
  const same = (a: string, b: string | undefined): boolean => a.toUpperCase() === b?.trim().toUpperCase();
  const onNet = new Set(
    place?.net && place.tiedTo === undefined ? place.net.pins.map(({ ref }) => ref.toUpperCase()) : [],
  );
  const alone = (found: readonly Coil[]): Coil | undefined => (found.length === 1 ? found[0] : undefined);
  return (
    alone(coils.filter(({ driver }) => same(driver, place?.ref))) ??
    alone(coils.filter(({ driver }) => onNet.has(driver.toUpperCase()))) ??
    alone(
      coils.filter(
        ({ title }) =>
          title !== undefined && (same(title, subject.item?.text) || same(title, subject.ref?.text)),
      ),
    )
  );
}

/** What the board file says the driver carries, else the device's own limit. */
function driverLimit(coil: Coil, ctx: LogContext): CurrentLimit | undefined {
  const own = amountOf(coil.limit, "current");
  if (own !== undefined && own > 0) return { value: own, source: coil.source ?? "the board file" };
  const { device } = partTestPoint(coil.driver, ctx.board?.value, ctx.library);
  const most = amountOf(device?.limits.get("collector-current")?.[1], "current");
  return device && most !== undefined && most > 0 ? { value: most, source: device.source } : undefined;
}

function fuseLimit(coil: Coil, ctx: LogContext): CurrentLimit | undefined {
  const part = coil.fuse === undefined ? undefined : partAt(coil.fuse, ctx);
  const value = part && fuseRating(part);
  return part && value !== undefined ? { value, source: `${part.ref}, ${part.value}` } : undefined;
}

/** "fuse 4 A slow", "T500mA 250 V": the one current in the part's value. */
export function fuseRating(part: Part): number | undefined {
  const typed = /(?:^|[^\d.,])(\d+(?:[.,]\d+)?\s*(?:m|k)?A)\b/.exec(part.value ?? "")?.[1];
  const parsed = typed === undefined ? undefined : parseQuantity(typed);
  return parsed?.ok && parsed.quantity.value > 0 ? parsed.quantity.value : undefined;
}

function toleranceOf(coil: Coil): { readonly share: number; readonly source: string } {
  const given = amountOf(coil.tolerance, "ratio");
  return given !== undefined && given > 0 && given < 1
    ? { share: given, source: coil.source ?? "the board file" }
    : { share: USUAL_TOLERANCE.value, source: USUAL_TOLERANCE.source };
}

/** The winding against what the board file says it should read; undefined where it does not say. */
function windingOf(coil: Coil, resistance: number, uncertainty: number) {
  const nominal = amountOf(coil.resistance, "resistance");
  if (nominal === undefined || nominal <= 0) return undefined;
  const { share, source } = toleranceOf(coil);
  const limits = { low: nominal * (1 - share), high: nominal * (1 + share), unit: "ohm" };
  const held = compareToLimits(resistance, limits, { uncertainty });
  const fact = `It should read ${formatValue(nominal, "ohm")} ± ${formatValue(share, "%")}.`;
  const says: Saying = {
    fact,
    source,
    ...(held.verdict === "within-limits"
      ? { cause: "Not disproved: a few shorted turns change less than that." }
      : held.verdict === "suspect"
        ? { cause: "Too close to tell.", step: "Take off the leads' own resistance and read it again." }
        : held.side === "low"
          ? {
              cause: "Turns are shorted or it is another coil.",
              step: "Compare its sister before you connect it.",
            }
          : { cause: "A lug or joint is poor, or it is another coil.", step: "Check its lugs and joints." }),
  };
  return { ...held, says, formula: comparisonText(held, "arithmetic") };
}

/**
 * The least resistance that keeps the current within what driver and fuse carry, and the winding's own window; where
 * the winding itself is meant to draw more than they carry, only that least counts.
 */
function referenceOf(
  coil: Coil,
  supply: number,
  limits: readonly (CurrentLimit | undefined)[],
  ctx: LogContext,
): Reference {
  const nominal = amountOf(coil.resistance, "resistance");
  const { share } = toleranceOf(coil);
  const least = limits.map((limit) => (limit ? supply / limit.value : 0));
  const low = Math.max(...least, nominal === undefined ? 0 : nominal * (1 - share));
  const high = nominal === undefined ? low : nominal * (1 + share);
  return defined({
    kind: "board",
    of: `the winding of ${nameOf(coil)}`,
    low,
    high: high > low ? high : undefined,
    unit: "ohm",
    source: "Ohm's law",
    ...linkTo(["coils", coil.index], ctx),
  });
}
