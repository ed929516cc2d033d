// A table of drops on the diode range, as its readings can have a cause in common.

import type { PinWindow, RowRead } from "../../compute/together/types";
import type { Reading } from "../../log/model";
import { extentOf } from "../compare";
import type { LogContext } from "../context";
import { pinRole } from "../pin-role";
import { pinReference } from "../pin-window";
import { pinTestPoint, type TestPoint } from "../test-point";
import { windowInLine, windowsOnNet } from "./in-line";
import type { TakenAs } from "./rows";

/** The column of that name, in volts: one object for a name. */
export function dropsOf(measure: string): TakenAs<RowRead, PinWindow> {
  const known = byMeasure.get(measure);
  if (known) return known;
  const as = { takes: (reading: Reading) => reading.measure === measure, rowOf, windowAt, windowInLine };
  byMeasure.set(measure, as);
  return as;
}

const byMeasure = new Map<string, TakenAs<RowRead, PinWindow>>();

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
  return new DropWindow(low, high, is, place, ctx);
}

/** What else is on a net is looked up where it is asked for: of the few chips that may be dead. */
class DropWindow implements PinWindow {
  readonly #place: TestPoint;
  readonly #ctx: LogContext;
  constructor(
    readonly low: number,
    readonly high: number,
    readonly is: PinWindow["is"],
    place: TestPoint,
    ctx: LogContext,
  ) {
    this.#place = place;
    this.#ctx = ctx;
  }

  /** A pin of another chip on the net has a drop of its own. */
  get shared(): true | undefined {
    const { ref, net, tiedTo } = this.#place;
    return (tiedTo === undefined && net && windowsOnNet(net, ref, this.#ctx).length > 0) || undefined;
  }
}
