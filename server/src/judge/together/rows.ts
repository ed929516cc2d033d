// A table's readings chip by chip, in the order of its rows, as far as they can have a cause in common.

import { withLater } from "../../base/later";
import { memo } from "../../base/memo";
import { once } from "../../base/once";
import type { ChipRows, PinWindow, RowRead } from "../../compute/together/types";
import type { LogTable, Reading } from "../../log/model";
import { readingAt } from "../../log/table-pieces";
import type { LogContext } from "../context";
import { partTestPoint, pinNumber, type TestPoint, testPointOf } from "../test-point";
import { pinsInLine } from "./in-line";
import type { PlaceOfReading } from "./types";

/** How the readings of a table are taken: which of them, what a row is, and what a pin ought to read. */
export interface TakenAs<Row extends RowRead, Window extends PinWindow> {
  readonly takes: (reading: Reading) => boolean;
  readonly rowOf: (reading: Reading, pin: number) => Row;
  /** Undefined where nothing is known of the pin. */
  readonly windowAt: (at: TestPoint, pin: number, ctx: LogContext) => Window | undefined;
  /** The same for a header or a network. */
  readonly windowInLine: (at: TestPoint, pin: number, ctx: LogContext) => Window | undefined;
}

/** One chip in a table: its rows with the readings that stand in them. */
export interface ChipInTable<Row extends RowRead = RowRead, Window extends PinWindow = PinWindow>
  extends ChipRows {
  readonly ref: string;
  readonly place: TestPoint;
  readonly rows: readonly Row[];
  readonly windowOf: (pin: number) => Window | undefined;
  /** By row of `rows`. */
  readonly readings: readonly Reading[];
  /** Their numbers among the table's readings. */
  readonly readingsAt: readonly number[];
  readonly places: readonly PlaceOfReading[];
}

/** Readings of chips whose package and pins are known; a chip that was read apart from the board is left out. */
export function chipsIn<Row extends RowRead, Window extends PinWindow>(
  table: LogTable,
  ctx: LogContext,
  as: TakenAs<Row, Window>,
): ChipInTable<Row, Window>[] {
  const chips = new Map<string, PartOfChip<Row>[]>();
  let first = 0;
  for (const { start, table: part } of table.pieces ?? [{ start: 0, table }]) {
    for (const [key, rows] of rowsByChip(part, ctx, as)) {
      const own = { rows, first, start };
      const chip = chips.get(key);
      if (chip) chip.push(own);
      else chips.set(key, [own]);
    }
    first += part.readings.length;
  }
  return [...chips.values()].flatMap((chip) => chipOf(chip, table, ctx, as) ?? []);
}

/** The rows of each chip, with the numbers of their readings among the table's. */
interface RowsOfChip<Row extends RowRead> {
  /** As typed first. */
  readonly ref: string;
  readonly rows: Row[];
  readonly numbers: number[];
  readonly places: PlaceOfReading[];
}

/** Some of a chip's rows that stand together. */
interface PartOfChip<Row extends RowRead> {
  readonly rows: RowsOfChip<Row>;
  /** Number of the first reading there among the table's, and the offset that places there count from. */
  readonly first: number;
  readonly start: number;
}

/** One map for a table, a context and a way to take it, so that a long table costs the rows that changed. */
const rowsByChip = <Row extends RowRead, Window extends PinWindow>(
  table: LogTable,
  ctx: LogContext,
  as: TakenAs<Row, Window>,
) => gathered(table, ctx, as) as ReadonlyMap<string, RowsOfChip<Row>>;

const gathered = memo(
  (
    table: LogTable,
    ctx: LogContext,
    as: TakenAs<RowRead, PinWindow>,
  ): ReadonlyMap<string, RowsOfChip<RowRead>> => {
    const chips = new Map<string, RowsOfChip<RowRead>>();
    table.readings.forEach((reading, index) => {
      const { ref, pin } = reading.subject;
      if (!ref || !pin || !as.takes(reading)) return;
      const key = ref.text.trim().toUpperCase();
      const chip: RowsOfChip<RowRead> = chips.get(key) ?? {
        ref: ref.text,
        rows: [],
        numbers: [],
        places: [],
      };
      chips.set(key, chip);
      const place = testPointOf(reading.subject, ctx);
      const number = Number(place?.pin?.number ?? pinNumber(pin.text));
      if (!Number.isInteger(number) || isApart(reading, place?.ref ?? ref.text)) return;
      chip.rows.push(as.rowOf(reading, number));
      chip.numbers.push(index);
      chip.places.push({ subject: reading.subject, at: reading.cell.span.start });
    });
    return chips;
  },
);

/** Fewer pins have nothing in common that could be told. */
const LEAST_PINS = 6;

/** The windows of pins that were asked for, by the designator as it was typed. */
const windowsOf = memo(
  (_ctx: LogContext, _as: TakenAs<RowRead, PinWindow>) =>
    new Map<string, Map<number, PinWindow | undefined>>(),
);

function chipOf<Row extends RowRead, Window extends PinWindow>(
  parts: readonly PartOfChip<Row>[],
  table: LogTable,
  ctx: LogContext,
  as: TakenAs<Row, Window>,
): ChipInTable<Row, Window> | undefined {
  const ref = parts[0]?.rows.ref ?? "";
  const at = partTestPoint(ref, ctx.board?.value, ctx.library);
  const { device } = at;
  if (device && device.pins.size < LEAST_PINS) return undefined;
  const inLine = device ? undefined : pinsInLine(at.part);
  const pins = device?.package.pins ?? inLine;
  if (pins === undefined || pins < LEAST_PINS) return undefined;
  const typed = parts.length === 1 ? parts[0]!.rows.rows : parts.flatMap(({ rows }) => rows.rows);
  // A header that a table only speaks of: what was read has more pins.
  if (inLine !== undefined && typed.some(({ pin, value }) => pin > inLine && value !== undefined))
    return undefined;
  const rows = ofPackage(typed, pins);
  const known = windowsOf(ctx, as) as Map<string, Map<number, Window | undefined>>;
  const windows = known.get(ref) ?? new Map<number, Window | undefined>();
  known.set(ref, windows);
  // Asked for of few chips: those that have something in common.
  const numbers = once(() =>
    parts.flatMap(({ rows, first }) => rows.numbers.map((number) => first + number)),
  );
  const readings = once(() => numbers().flatMap((index) => readingAt(table, index) ?? []));
  const places = once(() =>
    parts.flatMap(({ rows, start }) => rows.places.map(({ subject, at }) => ({ subject, at: at + start }))),
  );
  const windowOf = (pin: number): Window | undefined => {
    if (!windows.has(pin))
      windows.set(pin, inLine === undefined ? as.windowAt(at, pin, ctx) : as.windowInLine(at, pin, ctx));
    return windows.get(pin);
  };
  return withLater(
    {
      ref: at.ref,
      place: at,
      rows,
      pins,
      ...(inLine === undefined ? {} : { inLine: true as const }),
      windowOf,
    },
    { readingsAt: numbers, places, readings },
  );
}

/** Without blank rows at the end that the package has no pins for: the table is as long as the longest chip in it. */
function ofPackage<Row extends RowRead>(rows: readonly Row[], pins: number): readonly Row[] {
  let end = rows.length;
  for (let last = rows[end - 1]; last?.blank && last.pin > pins; last = rows[end - 1]) end -= 1;
  return end === rows.length ? rows : rows.slice(0, end);
}

/** Out of its socket, or a leg off its pad: not what the board reads there. */
const isApart = ({ apart = [] }: Reading, ref: string): boolean =>
  apart.some(
    (one) => (one.ref === undefined || one.ref.toUpperCase() === ref.toUpperCase()) && one.how !== "cut",
  );
