// Readings that stand beside the wrong place, as the other readings of the log show: what two ends of one net read, or what a row
// says should be there, agrees only where the pins are counted another way, or where the column is moved by a row.

import { defined } from "../../../base/defined";
import { memoBy } from "../../../base/memo";
import { truePin } from "../../../compute/together/counts";
import { rowMeant, shiftsOf } from "../../../compute/together/shifts";
import { judgeBlock } from "../../../judge";
import { extentOf } from "../../../judge/compare";
import { contextAt, type LogContext } from "../../../judge/context";
import { partTestPoint, pinNumber, pinTestPoint } from "../../../judge/test-point";
import type { LogDocument } from "../../../log/document";
import type { LogTable, Reading } from "../../../log/model";
import { parseCell } from "../../../quantity/parse-cell";
import type { LocatedObservation } from "../observation";
import { comeRight, countedEnds, MOST_FIT, MOST_SPOILT, waysOf } from "./counted";
import { type ByNode, fits, type HeldRow, nodeNamed, offIn, rowsByNode } from "./same-node";
import { COUNTED, inPlaceOfReadings, type Misread, refsOf, SHIFTED, tablesTold } from "./whole-table";

/** Fewer that come right by it may do so by chance. Common practice, no source. */
const LEAST = { counted: 4, shifted: 3, values: 2 } as const;
const MOST_ROWS = 80;

function grouped<T>(all: readonly T[], keyOf: (one: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const one of all) {
    const key = keyOf(one);
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return groups;
}

/** One finding for each of such tables or parts, in place of what their readings say. */
export function withoutMisplaced(
  all: readonly LocatedObservation[],
  { blocks }: LogDocument,
  whole: LogContext,
  phaseOf: (table: LogTable) => number,
): readonly LocatedObservation[] {
  const told = tablesTold(all);
  const found: Misread[] = [];
  const tables = blocks.flatMap(({ start, block }) => {
    const ctx = contextAt(block, whole);
    if (!ctx.board) return [];
    const add = (
      table: LogTable,
      readings: readonly Reading[],
      refs: readonly string[],
      words: Misread["words"],
    ) => found.push({ readings, table, start, phase: phaseOf(table), refs, words });
    return block.tables.flatMap((table) => {
      if (table.pieces || told.has(table) || table.readings.length > 10 * MOST_ROWS) return [];
      if (table.kind.observedAs === "ends") {
        const rung = countedEnds(table, ctx);
        if (rung) add(table, rung.readings, [rung.ref], COUNTED);
        return [];
      }
      const rows = rowsIn(table, () => rowsOf(table, block, ctx), block, ctx);
      return rows.length === 0 ? [] : [{ table, rows, ctx, add }];
    });
  });
  // What is found to be misplaced says nothing of the others: the clearest first.
  for (let left = tables; left.length > 0; ) {
    const byNode = rowsByNode(left.map(({ rows }) => rows));
    const off = offIn(
      byNode,
      left.map(({ rows }) => rows),
    );
    const mayBeOff = (own: readonly HeldRow[], least: number): boolean =>
      own.filter((row) => off.has(row)).length >= least;
    const best = left
      .flatMap(({ rows, table, ctx, add }) => {
        if (!mayBeOff(rows, Math.min(LEAST.counted, LEAST.shifted))) return [];
        const parts = [...grouped(rows, ({ kind, ref }) => `${kind} ${ref}`).values()];
        const columns = table.shape === "wide" ? [] : [...grouped(rows, ({ kind }) => kind).values()];
        return [
          ...parts
            .filter((own) => mayBeOff(own, LEAST.counted))
            .flatMap((own) => countedRight(own, byNode, ctx)),
          ...[...columns, ...parts]
            .filter((own) => mayBeOff(own, LEAST.shifted))
            .flatMap((own) => slidRight(own, byNode)),
        ].map((one) => ({ ...one, table, add }));
      })
      .reduce<(Candidate & Pick<(typeof left)[number], "table" | "add">) | undefined>(
        (most, one) => (most && most.right >= one.right ? most : one),
        undefined,
      );
    if (!best) break;
    const { own, from, words, table, add } = best;
    const readings = own.map(({ reading }) => reading);
    add(table, readings, refsOf(readings.slice(from)), words);
    left = left.map((one) => ({ ...one, rows: one.rows.filter((row) => !own.includes(row)) }));
  }
  return inPlaceOfReadings(all, found);
}

/** Kept with the table. */
const rowsIn = memoBy<LogTable, HeldRow[]>();

function rowsOf(table: LogTable, block: LogDocument["blocks"][number]["block"], ctx: LogContext): HeldRow[] {
  const { observedAs } = table.kind;
  const isOfPins =
    observedAs === "pin-unpowered" || observedAs === "pin-powered" || observedAs === "rail-to-ground";
  if (!isOfPins || table.kind.judgedBy === "reset") return [];
  const judgements = judgeBlock(block, ctx);
  return table.readings.flatMap((reading): HeldRow[] => {
    const { subject, spec, value, measure } = reading;
    const ref = subject.ref?.text;
    const typed = subject.pin?.text;
    if (ref === undefined || typed === undefined || (reading.apart ?? []).length > 0) return [];
    const extent = extentOf(value);
    const single = extent && extent.low === extent.high ? extent.low : undefined;
    if (extent && single === undefined) return [];
    const as = value.kind === "state" ? value.state : single;
    if (as === undefined && value.kind !== "empty") return [];
    const quantity = observedAs === "pin-unpowered" && spec.quantity === "voltage" ? "drop" : spec.quantity;
    const at = partTestPoint(ref, ctx.board?.value, ctx.library);
    const place = pinTestPoint(at, typed, ctx.board?.value);
    const said = subject.expected?.text.trim() || undefined;
    const expected =
      said === undefined || spec.quantity === undefined
        ? undefined
        : extentOf(parseCell(said, defined({ kind: "quantity" as const, unit: spec.unit })));
    const { reference } = judgements.get(reading) ?? {};
    const wanted =
      expected !== undefined
        ? ([expected.low, expected.high] as const)
        : reference?.kind === "board" && reference.low !== undefined && reference.high !== undefined
          ? ([reference.low, reference.high] as const)
          : undefined;
    const pin = place.pin?.number ?? pinNumber(typed) ?? typed;
    const kind = `${quantity ?? "state"} ${observedAs} ${measure}`;
    return [{ reading, ref: at.ref, pin, kind, value: as, wanted, node: nodeNamed(kind, place.net?.name) }];
  });
}

/** Rows that were misplaced together. */
interface Candidate {
  readonly own: readonly HeldRow[];
  /** The first of them, from 0, that shows it, and how many come right. */
  readonly from: number;
  readonly right: number;
  readonly words: Misread["words"];
}

function countedRight(own: readonly HeldRow[], byNode: ByNode, ctx: LogContext): Candidate[] {
  const [first] = own;
  if (!first || own.filter(({ value }) => value !== undefined).length < LEAST.counted) return [];
  const { at, pins, ways } = waysOf(first.ref, ctx);
  const saidAt = new Map(own.map(({ pin, wanted }) => [pin, wanted]));
  const fitsAt = (row: HeldRow, pin: string, node: string | undefined): boolean | undefined => {
    const others = node === undefined ? [] : (byNode.get(node) ?? []);
    return fits(
      row,
      others.flatMap(({ ref, value }) => (ref === first.ref ? [] : [value])),
      saidAt.get(pin),
    );
  };
  const typed = own.map((row) => fitsAt(row, row.pin, row.node));
  if (typed.filter((one) => one === false).length < LEAST.counted) return [];
  // How a chip was counted shows only where enough of its pins were read.
  const told = own.length >= MOST_FIT * pins ? ways : ways.filter(({ way }) => way === "reversed");
  const right = told.map((by) => {
    const meant = own.map((row) => {
      const pin = String(truePin(Number(row.pin), pins, by));
      return fitsAt(row, pin, nodeNamed(row.kind, pinTestPoint(at, pin, ctx.board?.value).net?.name));
    });
    return comeRight({ typed, meant }, LEAST.counted);
  });
  const most = Math.max(0, ...right);
  return most === 0 ? [] : [{ own, from: 0, right: most, words: COUNTED }];
}

/** The column of a table, or of one part in it, where it slid. */
function slidRight(own: readonly HeldRow[], byNode: ByNode): Candidate[] {
  if (own.length > MOST_ROWS || own.filter(({ value }) => value !== undefined).length < LEAST.counted)
    return [];
  const rows = own.map(({ value }, at) => ({ pin: at + 1, blank: value === undefined }));
  const mine = new Set(own);
  const under = (to: (at: number) => number): (boolean | undefined)[] => {
    const at = own.map((_, i) => to(i));
    return own.map((row, i) => {
      const place = own[at[i] ?? -1];
      if (!place) return undefined;
      const inTable = own.flatMap((other, k) => {
        const there = own[at[k] ?? -1];
        return k !== i && place.node !== undefined && there !== place && there?.node === place.node
          ? [other.value]
          : [];
      });
      const beside = place.node === undefined ? [] : (byNode.get(place.node) ?? []);
      const others = beside.flatMap((other) => (mine.has(other) ? [] : [other.value]));
      return fits(row, [...inTable, ...others], place.wanted);
    });
  };
  const typed = under((at) => at);
  if (typed.filter((one) => one === false).length < LEAST.shifted) return [];
  const right = shiftsOf(rows).map((shift) => {
    const meant = under((at) => rowMeant(at, rows.length, shift));
    const moved = own.filter((_, i) => typed[i] === false && meant[i] === true);
    const values = new Set(moved.map(({ value }) => value));
    // What is left out of the stretch fits as it stands.
    const spoilt = meant.filter((one) => one === false).length;
    const isSlid =
      moved.length >= LEAST.shifted && values.size >= LEAST.values && spoilt <= MOST_SPOILT * moved.length;
    return isSlid ? moved.length : 0;
  });
  const most = Math.max(0, ...right);
  return most === 0 ? [] : [{ own, from: typed.indexOf(false), right: most, words: SHIFTED }];
}
