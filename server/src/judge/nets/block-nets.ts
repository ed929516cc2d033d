// A block's readings gathered by net, by like pins and by chip: what the comparisons across readings work on.

import { defined } from "../../base/defined";
import { memo } from "../../base/memo";
import { familyLevels } from "../../compute/logic/family-levels";
import type { NetReading, NetReadingKind } from "../../compute/nets/net-reading";
import type { LogBlock, LogTable, Reading } from "../../log/model";
import { readingAt, tableParts } from "../../log/table-pieces";
import type { LogicState } from "../../quantity/words";
import { extentOf } from "../compare";
import type { LogContext } from "../context";
import { isMoving } from "../moving";
import { type TestPoint, testPointOf } from "../test-point";
import type { Judgement } from "../types";
import { uncertaintyOf } from "../uncertainty";
import { type IsolatedReading, isolationOf } from "./isolation";

/** A reading with its place and its value in SI base units. */
export interface LocatedReading extends NetReading {
  readonly reading: Reading;
  readonly place: TestPoint;
  /** Something was off its net while it was read. */
  readonly isolation?: IsolatedReading;
}

/** Readings of one net taken with the same things on it. */
export interface NetGroup<R = LocatedReading> {
  readonly net: string;
  readonly readings: readonly R[];
}

/** What the main column compares as, where readings along a net must agree. */
const DROPS: { kind: NetReadingKind; measure: string; meter: string } = {
  kind: "drop",
  measure: "drop",
  meter: "diode",
};

/**
 * By which measure a table's readings must agree along a net, and on which range; undefined for tables whose pins need
 * not agree.
 */
export const comparedAs = ({ kind }: LogTable) => (kind.alongNets === "drops" ? DROPS : undefined);

/** The readings of a table that can be compared, with a pin each; gathered once for a table and a context. */
export const placedReadings: (table: LogTable, ctx: LogContext) => readonly LocatedReading[] = memo(gather);

function gather(table: LogTable, ctx: LogContext): LocatedReading[] {
  const as = comparedAs(table);
  if (!as) return [];
  return table.readings.flatMap((reading) => {
    const place = testPointOf(reading.subject, ctx);
    const extent = extentOf(reading.value);
    const pin = place?.pin;
    if (reading.measure !== as.measure || !place || !pin || !extent) return [];
    if (extent.low !== extent.high || reading.spec.quantity === undefined || extent.low < 0) return [];
    const uncertainty = uncertaintyOf(reading.value, ctx.meter, as.meter);
    const isolation = isolationOf(reading, place, ctx.board?.value);
    return [
      defined({
        reading,
        place,
        ref: place.ref,
        pin: pin.number,
        value: extent.low,
        uncertainty,
        isolation,
      }),
    ];
  });
}

/**
 * Readings by the net they are on, grounds and rails left out: those are judged by what they are. With a part off it a
 * net is another node; a lifted leg is on none, and of a cut net nobody knows what is on which side.
 */
export function byNet<R extends LocatedReading>(readings: readonly R[]): NetGroup<R>[] {
  const nets = new Map<string, { net: string; readings: R[]; pins: Set<string> }>();
  for (const item of readings) {
    const net = item.place.net;
    if (!net || item.place.tiedTo || item.isolation?.alone || item.isolation?.cut) continue;
    const key = `${net.name}\n${item.isolation?.key ?? ""}`;
    const group = nets.get(key) ?? { net: net.name, readings: [], pins: new Set() };
    nets.set(key, group);
    // One reading a pin; a second one of the same pin is another check's affair.
    const pin = `${item.ref}\n${item.pin}`;
    if (group.pins.has(pin)) continue;
    group.pins.add(pin);
    group.readings.push(item);
  }
  return [...nets.values()].map(({ net, readings: own }) => ({ net, readings: own }));
}

/**
 * A meter averages: what lies between is no state, and neither is what a moving line could average to. Volts, common
 * practice, no source; of families whose inputs ask for more or less, those count.
 */
const SURELY_LOW = 0.5;
const SURELY_HIGH = 2.4;
const DRIVER_LOW = 1.1;
/** Below this it is the sign, or another supply, and no state. */
const BELOW = -0.3;

/** The state a standing voltage shows; undefined where it may be the average of a moving line. */
function standingState({ value, spec, subject }: Reading, { family }: TestPoint): LogicState | undefined {
  const extent = spec.quantity === "voltage" ? extentOf(value) : undefined;
  if (isMoving(subject.note?.text)) return "pulsing";
  const levels = family && familyLevels(family);
  if (!extent || extent.low !== extent.high || extent.low < BELOW) return undefined;
  // A driver's output stands a volt above ground while it carries its load.
  if (!levels?.ok) return extent.low <= DRIVER_LOW ? "low" : extent.low >= SURELY_HIGH ? "high" : undefined;
  if (extent.low <= Math.min(SURELY_LOW, levels.vil)) return "low";
  return extent.low >= Math.max(SURELY_HIGH, levels.vih) ? "high" : undefined;
}

/** A pin's state with the reading that shows it, of the table as a whole. */
export interface StateRead {
  readonly state: LogicState;
  readonly reading: Reading;
}

/** What a chip's pins show, by pin number. */
export interface StatesOfChip {
  readonly place: TestPoint;
  readonly states: Map<string, StateRead>;
}

/** Recorded logic states, and voltages that can be nothing else, by designator and pin number, each with its reading. */
export function statesByRef(block: LogBlock, ctx: LogContext): Map<string, StatesOfChip> {
  const chips = new Map<string, StatesOfChip>();
  for (const table of block.tables) {
    if (!table.kind.gates) continue;
    let first = 0;
    for (const part of tableParts(table)) {
      for (const { place, pin, state, index } of statesIn(part, ctx)) {
        const chip = chips.get(place.ref) ?? { place, states: new Map() };
        chip.states.set(pin, new StateAt(state, table, first + index));
        chips.set(place.ref, chip);
      }
      first += part.readings.length;
    }
  }
  return chips;
}

/**
 * Of thousands of states few are told of, so that the reading itself is looked up when it is asked for: by a getter that all of
 * them share, since one in a literal would be another function for each.
 */
class StateAt implements StateRead {
  constructor(
    readonly state: LogicState,
    readonly table: LogTable,
    readonly index: number,
  ) {}

  get reading(): Reading {
    return readingAt(this.table, this.index) as Reading;
  }
}

interface StateIn {
  readonly place: TestPoint;
  readonly pin: string;
  readonly state: LogicState;
  /** Number of its reading in the table. */
  readonly index: number;
}

const statesIn = memo((table: LogTable, ctx: LogContext): readonly StateIn[] =>
  table.readings.flatMap((reading, index) => {
    const place = testPointOf(reading.subject, ctx);
    if (!place?.device || !place.pin) return [];
    const state = reading.value.kind === "state" ? reading.value.state : standingState(reading, place);
    return state ? [{ place, pin: place.pin.number, state, index }] : [];
  }),
);

/** True where the reading is already reported by itself. */
export const isReported = (judgement: Judgement | undefined): boolean =>
  judgement?.code !== undefined && judgement.verdict !== "suspect";
