// Junctions of transistors that stand a row too low or too high: each part then reads as the type of its neighbour does.

import { judgeJunctions } from "../../../compute/circuit/junction";
import { isJunctionType, JUNCTION_PAIRS, type JunctionPair } from "../../../compute/circuit/junction-table";
import { rowMeant, shiftsOf } from "../../../compute/together/shifts";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { testPointOf } from "../../../judge/test-point";
import type { LogTable, Reading } from "../../../log/model";
import type { Observation } from "../observation";
import { refsOf, SHIFTED, wholeTable } from "./whole-table";

/** Parts at least, those that come right at least, and figures of a row that stands there twice. Common practice, no source. */
const LEAST = { parts: 4, right: 2, figures: 2 } as const;
const MOST_ROWS = 40;

/** One finding for the table, or none. */
export function slidJunctions(table: LogTable, ctx: LogContext): Observation | undefined {
  if (table.kind.observedAs !== "junctions" || table.pieces) return undefined;
  const byRow = new Map<number, Reading[]>();
  for (const reading of table.readings) byRow.set(reading.row, [...(byRow.get(reading.row) ?? []), reading]);
  const rows = [...byRow.values()].flatMap((readings) => {
    const [first] = readings;
    const device =
      (first && testPointOf(first.subject, ctx)?.device) ??
      (first?.subject.part && ctx.library.device(first.subject.part.text)?.device);
    return [{ readings, type: device?.families.find(isJunctionType), drops: dropsOf(readings) }];
  });
  const types = new Set(rows.map(({ type }) => type));
  if (rows.length < LEAST.parts || rows.length > MOST_ROWS || types.size < 2) return undefined;
  const fits = (row: number, at: number): boolean | undefined => {
    const { drops } = rows[row] ?? {};
    const type = rows[at]?.type;
    if (!drops || !type || Object.keys(drops).length === 0) return undefined;
    // With the leads the other way round, which black on the base is, a PNP reads as an NPN does.
    const isTurned = type.startsWith("PNP") && drops.eb === undefined && drops.cb === undefined;
    const as = isTurned ? type.replace("PNP", "NPN") : type;
    const ruled = judgeJunctions({ type: isJunctionType(as) ? as : type, readings: drops });
    return ruled.ok ? ruled.verdict !== "out-of-limits" : undefined;
  };
  const typed = rows.map((_, row) => fits(row, row));
  const wrong = typed.filter((one) => one === false).length;
  if (wrong === 0) return undefined;
  const ofRows = rows.map(({ drops }, row) => ({ pin: row + 1, blank: Object.keys(drops).length === 0 }));
  const slid = shiftsOf(ofRows).find((shift) => {
    const meant = rows.map((_, row) => fits(row, rowMeant(row, rows.length, shift)));
    const right = meant.filter((one, row) => one === true && typed[row] === false).length;
    // One part that reads as its neighbour is that part, but where the row before it was written twice.
    const isTwice = shift.by === -1 && !shift.wraps && isSame(rows[shift.first], rows[shift.first - 1]);
    return !meant.includes(false) && right === wrong && (right >= LEAST.right || isTwice);
  });
  if (!slid) return undefined;
  const refs = refsOf(rows.slice(typed.indexOf(false)).flatMap(({ readings }) => readings));
  return wholeTable(table, table.readings, refs, SHIFTED(refs));
}

type Drops = { [pair in JunctionPair]?: number };

function dropsOf(readings: readonly Reading[]): Drops {
  const drops: Drops = {};
  for (const { measure, value } of readings) {
    const pair = JUNCTION_PAIRS.find((one) => one === measure);
    const extent = extentOf(value);
    if (pair && extent) drops[pair] = extent.low;
  }
  return drops;
}

/** The same figures, and more than one of them. */
function isSame(one: { readonly drops: Drops } | undefined, other: typeof one): boolean {
  const a = Object.entries(one?.drops ?? {});
  const figures = a.filter(([, value]) => Number.isFinite(value));
  return (
    figures.length >= LEAST.figures &&
    a.every(([pair, value]) => other?.drops[pair as JunctionPair] === value) &&
    a.length === Object.keys(other?.drops ?? {}).length
  );
}
