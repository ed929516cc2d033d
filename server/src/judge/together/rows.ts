// A table's readings chip by chip, in the order of its rows, as far as they can have a cause in common.

import type { ChipRows, PinWindow, RowRead } from "../../compute/together/types";
import type { LogTable, Reading } from "../../log/model";
import { extentOf } from "../compare";
import type { LogContext } from "../context";
import { pinRole } from "../pin-role";
import { pinReference } from "../pin-window";
import { partTestPoint, pinNumber, pinTestPoint, type TestPoint, testPointOf } from "../test-point";

/** One chip in a table: its rows with the readings that stand in them. */
export interface ChipInTable extends ChipRows {
  readonly ref: string;
  readonly place: TestPoint;
  /** By row of `rows`. */
  readonly readings: readonly Reading[];
}

/** Readings of chips whose package and pins are known; a chip that was read apart from the board is left out. */
export function chipsIn(table: LogTable, ctx: LogContext, measure: string): ChipInTable[] {
  const chips = new Map<string, Reading[]>();
  for (const reading of table.readings) {
    if (reading.measure !== measure || !reading.subject.ref || !reading.subject.pin) continue;
    const key = reading.subject.ref.text.trim().toUpperCase();
    const list = chips.get(key);
    if (list) list.push(reading);
    else chips.set(key, [reading]);
  }
  return [...chips.values()].flatMap((readings) => chipOf(readings, ctx) ?? []);
}

function chipOf(all: readonly Reading[], ctx: LogContext): ChipInTable | undefined {
  const ref = all[0]?.subject.ref?.text ?? "";
  const at = partTestPoint(ref, ctx.board?.value, ctx.library);
  const { device } = at;
  if (!device || device.pins.size < 6) return undefined;
  const rows: RowRead[] = [];
  const readings: Reading[] = [];
  for (const reading of all) {
    const place = testPointOf(reading.subject, ctx);
    const number = Number(place?.pin?.number ?? pinNumber(reading.subject.pin?.text ?? ""));
    if (!Number.isInteger(number) || isApart(reading, at.ref)) continue;
    rows.push(rowOf(reading, number));
    readings.push(reading);
  }
  const windows = new Map<number, PinWindow | undefined>();
  return {
    ref: at.ref,
    place: at,
    rows,
    readings,
    pins: device.package.pins,
    windowOf(pin) {
      if (!windows.has(pin)) windows.set(pin, windowAt(at, pin, ctx));
      return windows.get(pin);
    },
  };
}

/** Out of its socket, or a leg off its pad: not what the board reads there. */
const isApart = ({ apart = [] }: Reading, ref: string): boolean =>
  apart.some(
    (one) => (one.ref === undefined || one.ref.toUpperCase() === ref.toUpperCase()) && one.how !== "cut",
  );

function rowOf({ value, cell }: Reading, pin: number): RowRead {
  const extent = extentOf(value);
  if (!extent) return { pin, blank: value.kind === "empty" && cell.text === "" };
  if (value.kind === "bound" && extent.high === Number.POSITIVE_INFINITY)
    return { pin, value: Number.POSITIVE_INFINITY, blank: false };
  const low = Number.isFinite(extent.low) ? extent.low : extent.high;
  return { pin, value: (low + extent.high) / 2, blank: false };
}

function windowAt(at: TestPoint, pin: number, ctx: LogContext): PinWindow | undefined {
  const place = pinTestPoint(at, String(pin), ctx.board?.value);
  if (!place.pin) return undefined;
  const role = pinRole(place);
  const reference = pinReference(place, ctx);
  if (!reference || role === "not-connected") return undefined;
  const { low = 0, high = Number.POSITIVE_INFINITY } = reference;
  const is =
    role === "ground" || role === "tied-to-ground"
      ? "ground"
      : role === "supply" || role === "tied-to-rail"
        ? "supply"
        : place.pin.direction === "input"
          ? "input"
          : "other";
  return { low, high, is };
}
