import { defined } from "../base/defined";
import { memo } from "../base/memo";
import type { Expected } from "../knowledge/types";
import type { Reading } from "../log/model";
import { parseQuantity } from "../quantity/quantity";
import { parseUnit } from "../quantity/units";
import { locate } from "../syntax/yaml";
import type { BaselinePlace } from "./baseline/types";
import type { LogContext } from "./context";
import { findRail } from "./rail-name";
import { pinName, pinNumber, type TestPoint } from "./test-point";
import type { Reference } from "./types";
import { siValue } from "./uncertainty";

/** The board file's own expectation for this place and procedure, the most specific reference there is. */
export function boardReference(
  reading: Reading,
  place: TestPoint | undefined,
  unit: string,
  ctx: LogContext,
): Reference | undefined {
  const wanted = reading.spec.quantity;
  // Where a procedure measures one quantity in several ways (leads one way and the other, say), the board file
  // speaks of the first: to hold the others against it would be a guess.
  const first = reading.table.procedure.columns.find((c) => c.role === "reading" && c.quantity === wanted);
  if (first?.measure !== reading.spec.measure) return undefined;
  return expectedWhere(
    reading.subject.rail ? undefined : place,
    (item) =>
      matches(item, reading, place, ctx) &&
      dimensionOf(item.low, unit) === wanted &&
      dimensionOf(item.high, unit) === wanted,
    unit,
    ctx,
  );
}

/** What boards of this type are known to read at a pin, without a reading of it. */
export function expectedAt(
  procedure: string,
  place: TestPoint,
  unit: string,
  ctx: LogContext,
): Reference | undefined {
  const expected = expectedWhere(
    place,
    (item) => item.procedure === procedure && item.rail === undefined && isAt(item, place),
    unit,
    ctx,
  );
  if (expected) return expected;
  const measure = ctx.library.procedure(procedure)?.columns.find(({ role }) => role === "reading")?.measure;
  return measure === undefined
    ? undefined
    : otherBoards({ procedure, measure, at: pinAt(place) }, place, ctx);
}

/**
 * Limits from the boards this shop returned, else from its reference jobs, else from several shops' boards, which come after
 * all that the board file says and before what is usual for the device; undefined where there is none of them.
 */
export function shopReference(
  { table, measure, subject }: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Reference | undefined {
  const procedure = table.procedure.id;
  const { acrossJobs } = table.kind;
  if (!(ctx.baselines || ctx.references || ctx.pooled) || acrossJobs === "nothing" || acrossJobs === "told")
    return undefined;
  const { load } = table.section.qualifiers;
  const rail = ctx.board && subject.rail && findRail(ctx.board.value, subject.rail.text);
  const at = place ? pinAt(place) : rail && { rail: rail.name };
  return at && otherBoards(defined({ procedure, measure, load, at }), place, ctx);
}

const otherBoards = (
  at: BaselinePlace,
  place: TestPoint | undefined,
  ctx: LogContext,
): Reference | undefined => shopAt(at, ctx) ?? referenceJobAt(at, place, ctx) ?? pooledAt(at, ctx);

const pinAt = (place: TestPoint): BaselinePlace["at"] => defined({ ref: place.ref, pin: pinName(place) });

/**
 * One good board in twenty may lie outside limits that hold 95 % of them. Out of limits is only what lies twice as far
 * from the middle: common practice, no source.
 */
const FAR = 2;
/** Jobs whose readings are told beside a finding. */
const JOBS_TOLD = 2;

function shopAt(place: BaselinePlace, { baselines }: LogContext): Reference | undefined {
  const baseline = baselines?.at(place);
  if (!baseline) return undefined;
  const { low, high, unit, source, jobs, centre, spread, factor } = baseline;
  const reach = FAR * factor * spread;
  return defined({
    kind: "shop",
    boards: baseline.n,
    of: `what this shop's boards read at ${placeName(place.at)}`,
    low,
    high,
    beyond: { low: centre - reach, high: centre + reach },
    unit,
    source,
    jobs: jobs.slice(0, JOBS_TOLD).map(({ uri, job, value }) => ({ uri, job, value })),
  });
}

function referenceJobAt(
  at: BaselinePlace,
  place: TestPoint | undefined,
  { references }: LogContext,
): Reference | undefined {
  const limits = references?.at(at, place?.family?.id);
  if (!limits) return undefined;
  const { readings, low, high, beyond, unit, source } = limits;
  return defined({
    kind: "reference-job",
    of: `the window from the reference job${readings.length === 1 ? "" : "s"}`,
    low,
    high,
    beyond,
    unit,
    source,
    jobs: readings.slice(0, JOBS_TOLD).map(({ uri, job, value }) => ({ uri, job, value })),
  });
}

/** The same weight as this shop's own boards have: twice as far from the middle is out of limits. */
function pooledAt(place: BaselinePlace, { pooled }: LogContext): Reference | undefined {
  const limit = pooled?.at(place);
  if (!pooled || !limit) return undefined;
  const { low, middle, high, unit, boards, shops, revision } = limit;
  const reach = FAR * Math.max(middle - (low ?? middle), (high ?? middle) - middle);
  const of = revision === undefined ? "" : ` of revision ${revision}`;
  return defined({
    kind: "shops",
    boards,
    shops,
    of: `what boards of ${shops} ${shops === 1 ? "shop" : "shops"} read at ${placeName(place.at)}`,
    low,
    high,
    beyond: { low: middle - reach, high: middle + reach },
    unit,
    source: `${boards} returned boards${of} of ${shops} ${shops === 1 ? "shop" : "shops"}: ${pooled.source}`,
  });
}

/** What a board expects of each part, in the order of its file. */
const expectedOf = memo((items: readonly Expected[]): ReadonlyMap<string, readonly Expected[]> => {
  const byRef = new Map<string, Expected[]>();
  for (const item of items) {
    const ref = item.ref?.toUpperCase() ?? "";
    const known = byRef.get(ref);
    if (known) known.push(item);
    else byRef.set(ref, [item]);
  }
  return byRef;
});

/** @param place whose part alone is looked for; undefined where a rail may be */
function expectedWhere(
  place: TestPoint | undefined,
  fits: (item: Expected) => boolean,
  unit: string,
  ctx: LogContext,
): Reference | undefined {
  const board = ctx.board;
  const items = board?.value.expected;
  const found = (place && items ? expectedOf(items).get(place.ref.toUpperCase()) : items)?.find(fits);
  if (!board || !found) return undefined;
  const low = siValue(found.low, unit);
  const high = siValue(found.high, unit);
  const at = locate(board.loaded.tree, ["expected", found.index]);
  return defined({
    kind: "board",
    of: `the board file's expected reading at ${placeName(found)}`,
    low,
    high,
    unit: parseUnit(unit)?.unit.symbol ?? unit,
    source: found.source,
    link: at ? { uri: board.uri, span: at } : undefined,
  });
}

/** A capacitor's capacitance and its ESR stand in one table: only an expectation in ohms is for the latter. */
function dimensionOf(text: string, unit: string): string | undefined {
  const parsed = parseQuantity(text, { unit });
  return parsed.ok ? parsed.quantity.dimension : undefined;
}

function matches(item: Expected, reading: Reading, place: TestPoint | undefined, ctx: LogContext): boolean {
  if (item.procedure !== reading.table.procedure.id) return false;
  if (item.rail !== undefined) {
    const typed = reading.subject.rail?.text;
    if (typed === undefined || !ctx.board) return false;
    return findRail(ctx.board.value, typed)?.name === findRail(ctx.board.value, item.rail)?.name;
  }
  return place !== undefined && isAt(item, place);
}

function isAt(item: Expected, place: TestPoint): boolean {
  if (item.ref === undefined || item.ref.toUpperCase() !== place.ref.toUpperCase()) return false;
  if (item.pin === undefined) return place.pinTyped === undefined;
  const pin = place.pin?.number ?? pinNumber(place.pinTyped ?? "");
  return pin !== undefined && pinNumber(item.pin) === pin;
}

const placeName = ({ rail, ref, pin }: Pick<Expected, "rail" | "ref" | "pin">): string =>
  rail ?? [ref, pin === undefined ? undefined : `pin ${pin}`].filter(Boolean).join(" ");
