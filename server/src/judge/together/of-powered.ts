// Tables of states and of standing voltages, read under power: what their chips have in common, and what each has by itself.

import { CLEAR_MARGIN } from "../../compute/together/explain";
import { type PoweredChip, poweredExplanations } from "../../compute/together/powered";
import {
  type PoweredPin,
  type PoweredRow,
  type Shown,
  shownAtVolts,
} from "../../compute/together/powered-likelihood";
import type { CauseExplanation } from "../../compute/together/types";
import type { LogTable, Reading } from "../../log/model";
import type { LogicState } from "../../quantity/words";
import { extentOf } from "../compare";
import type { LogContext } from "../context";
import { fedBy } from "../feeding";
import { isMoving } from "../moving";
import { pinRole } from "../pin-role";
import { isNegativeSupply, supplyWindow } from "../supply-window";
import { partTestPoint, pinTestPoint, type TestPoint } from "../test-point";
import { type Explaining, explainedChips } from "./explained";
import { asGood, keyOf, partOf } from "./part";
import { type ChipInTable, chipsIn, type TakenAs } from "./rows";
import type { PartOfCause, TableCause } from "./types";

type PoweredInTable = ChipInTable<PoweredRow, PoweredPin>;

/** Every cause that explains what a chip shows, or several of a table alike. */
export function poweredCauses(table: LogTable, ctx: LogContext): TableCause[] {
  if (!table.kind.gates) return [];
  const chips = explainedOf(table, ctx);
  const groups = new Map<
    string,
    { best: CauseExplanation; margin: number; parts: PartOfCause[]; or?: TableCause["or"] }
  >();
  for (const { chip, causes } of chips) {
    const [best] = causes;
    if (!best) continue;
    const part = partOf(chip, best, best.explains, table);
    const key = keyOf(best.cause);
    const group = groups.get(key);
    if (group) {
      group.margin += best.margin;
      group.parts.push(part);
    } else groups.set(key, { best, margin: best.margin, parts: [part], or: asGood(best, causes) });
  }
  return [...groups.values()].map(({ best: { cause }, margin, parts, or }) => ({
    cause,
    table,
    parts,
    margin,
    clear: margin >= CLEAR_MARGIN,
    ...(or ? { or } : {}),
  }));
}

/** In a long table a chip is thought over by its own rows alone, so that a reading costs one chip. */
function explainedOf(table: LogTable, ctx: LogContext): readonly Explaining<PoweredRow, PoweredPin>[] {
  if (table.pieces) return explainedChips(table, ctx, POWERED, poweredExplanations);
  const chips = chipsIn(table, ctx, POWERED);
  const lines = linesOf(chips, ctx);
  return chips.map((chip) => ({ chip, causes: poweredExplanations(beside(chip, lines, ctx)) }));
}

const POWERED: TakenAs<PoweredRow, PoweredPin> = {
  takes: ({ spec, value }) =>
    value.kind === "state" || spec.quantity === "voltage" || (value.kind === "empty" && spec.role !== "note"),
  rowOf,
  windowAt,
  windowInLine: lineAt,
};

const SHOWN: Readonly<Record<LogicState, Shown>> = {
  low: "low",
  high: "high",
  pulsing: "moving",
  floating: "nothing",
};

function rowOf({ value, subject }: Reading, pin: number): PoweredRow {
  if (value.kind === "state") return { pin, value: Number.NaN, blank: false, shown: SHOWN[value.state] };
  const extent = extentOf(value);
  if (!extent || !Number.isFinite(extent.low) || !Number.isFinite(extent.high))
    return { pin, blank: value.kind === "empty" };
  const volts = (extent.low + extent.high) / 2;
  return {
    pin,
    value: volts,
    blank: false,
    shown: isMoving(subject.note?.text) ? "moving" : shownAtVolts(volts),
  };
}

/** How far a rail may be off and still be told by its voltage. */
const NEAR = 0.15;
/** Volts at a ground pin, under load. */
const GROUND_MAX = 0.4;

function windowAt(at: TestPoint, pin: number, ctx: LogContext): PoweredPin | undefined {
  const place = pinTestPoint(at, String(pin), ctx.board?.value);
  if (!place.pin || place.pin.direction === "not-connected") return undefined;
  return windowOf(place, ctx);
}

function lineAt(at: TestPoint, pin: number, ctx: LogContext): PoweredPin | undefined {
  const place = pinTestPoint(at, String(pin), ctx.board?.value);
  return place.net ? windowOf(place, ctx) : undefined;
}

const SIGNAL: PoweredPin = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY, is: "other" };

function windowOf(place: TestPoint, ctx: LogContext): PoweredPin {
  const role = pinRole(place);
  if (role === "ground" || role === "tied-to-ground") return { low: 0, high: GROUND_MAX, is: "ground" };
  if (role !== "supply" && role !== "tied-to-rail") return SIGNAL;
  const { tiedTo, pin, device, family } = place;
  const fed = typeof tiedTo === "object" || !pin ? undefined : fedBy(place, pin, ctx);
  const volts =
    typeof tiedTo === "object" ? tiedTo.volts : fed?.kind === "known" ? fed.feed.volts : undefined;
  if (volts !== undefined) return around(volts, volts);
  const made = pin && device && supplyWindow(pin, device, family);
  if (made) return around(made.low, made.high);
  const isBelow = pin && device ? isNegativeSupply(pin, device, family) : false;
  return isBelow
    ? { low: Number.NEGATIVE_INFINITY, high: 0, is: "supply" }
    : { low: 0, high: Number.POSITIVE_INFINITY, is: "supply" };
}

/** A supply that stands between these, or somewhat beyond. */
function around(low: number, high: number): PoweredPin {
  const ends = [low * (1 - NEAR), low * (1 + NEAR), high * (1 - NEAR), high * (1 + NEAR)];
  return { low: Math.min(...ends), high: Math.max(...ends), is: "supply" };
}

/** What each net of a table shows, by the chips it was read at. */
type Lines = ReadonlyMap<string, ReadonlyMap<string, Shown>>;

function linesOf(chips: readonly PoweredInTable[], ctx: LogContext): Lines {
  const lines = new Map<string, Map<string, Shown>>();
  for (const { ref, place, rows } of chips)
    for (const { pin, shown } of rows) {
      const net = shown && lineName(place, pin, ctx);
      if (!net) continue;
      const line = lines.get(net) ?? new Map<string, Shown>();
      lines.set(net, line);
      line.set(ref, shown);
    }
  return lines;
}

function lineName(at: TestPoint, pin: number, ctx: LogContext): string | undefined {
  const { net, tiedTo } = pinTestPoint(at, String(pin), ctx.board?.value);
  return tiedTo ? undefined : net?.name;
}

/** The chip with what its signal pins ought to show by the other chips of the table. */
function beside(chip: PoweredInTable, lines: Lines, ctx: LogContext): PoweredChip {
  const known = new Map<number, PoweredPin | undefined>();
  const windowOf = (pin: number): PoweredPin | undefined => {
    if (!known.has(pin)) known.set(pin, withLine(chip.windowOf(pin), pin));
    return known.get(pin);
  };
  const { rows, pins, inLine } = chip;
  return { rows, pins, windowOf, ...(inLine ? { inLine } : {}) };

  function withLine(window: PoweredPin | undefined, pin: number): PoweredPin | undefined {
    if (window?.is !== "other") return window;
    const net = lineName(partTestPoint(chip.ref, ctx.board?.value, ctx.library), pin, ctx);
    const seen = net === undefined ? undefined : lines.get(net);
    const others = [...(seen ?? [])].flatMap(([ref, shown]) => (ref === chip.ref ? [] : [shown]));
    const [shows] = others;
    return shows !== undefined && others.every((one) => one === shows) ? { ...window, shows } : window;
  }
}
