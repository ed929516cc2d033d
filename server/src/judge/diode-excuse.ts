// What on a pin's net excuses a low drop, by arithmetic: a resistor carries its share of the meter's current and no more.

import { someOf } from "../compute/nets/net-text";
import { partValue } from "../compute/part-value";
import { boardIndex } from "../knowledge/board-index";
import type { Meter } from "../knowledge/types";
import { formatValue } from "../quantity/format-value";
import type { Advice } from "../text/saying";
import { partAt } from "./board-parts";
import type { LogContext } from "./context";
import { partWord } from "./part-word";
import type { TestPoint } from "./test-point";
import { siValue } from "./uncertainty";

/** What a diode range drives where the meter's profile does not say, amperes: common practice, no source. */
const USUAL_CURRENT = 1e-3;
/** Resistors that carry less than this share of it leave the drop to the junction. */
const SHARE = 0.5;
const RESISTOR = /^(?:R|RN|RP)\d/i;
const WINDING = /^(?:L|T)\d/i;

/** The meter's current on its diode range, amperes. */
export function testCurrent(meter: Meter | undefined): number {
  const range = meter?.ranges.find(
    ({ function: fn, testCurrent: current }) => fn === "diode" && current !== undefined,
  );
  const own = range?.testCurrent === undefined ? undefined : siValue(range.testCurrent, "A");
  return own !== undefined && own > 0 ? own : USUAL_CURRENT;
}

/**
 * What to say where resistors, packs or windings on the pin's net can bring the drop as low as `volts`, else undefined. Whatever the
 * other end of a resistor is on, it carries no more than `volts` over its value; one of unknown value may carry all.
 */
export function excuseOf(place: TestPoint, volts: number, ctx: LogContext): Advice | undefined {
  const refs = neighbours(place, ctx);
  const current = testCurrent(ctx.meter);
  const windings = refs.filter((ref) => WINDING.test(ref));
  const resistors = refs.filter((ref) => RESISTOR.test(ref));
  const values = resistors.map((ref) => ({ ref, ohms: ohmsOf(ref, ctx) }));
  const unknown = values.filter(({ ohms }) => ohms === undefined).map(({ ref }) => ref);
  const conductance = values.reduce((sum, { ohms }) => sum + (ohms === undefined ? 0 : 1 / ohms), 0);
  const carried = volts * conductance;
  const name = place.net?.name ?? "the net";
  const step = `Lift one end, or compare the same pin on another board, before you blame the ${partWord(place)}.`;
  if (volts > 0 && carried >= SHARE * current) {
    const told = values.flatMap(({ ref, ohms }) =>
      ohms === undefined ? [] : [`${ref} (${formatValue(ohms, "ohm")})`],
    );
    return {
      cause: `${someOf(told, NAMED)} on ${name} can pull the reading down.`,
      step,
      more: `At ${formatValue(volts, "V")} ${told.length > 1 ? "they carry" : "it carries"} ${formatValue(Number(carried.toPrecision(2)), "A")} of the meter's ${formatValue(current, "A")}.`,
    };
  }
  const left = [...windings, ...(volts > GROUND ? unknown : [])];
  if (left.length === 0 || (windings.length === 0 && volts <= GROUND)) return undefined;
  return { cause: `${someOf(left, NAMED)} on ${name} can pull the reading down.`, step };
}

/** Parts named in a message. */
const NAMED = 3;

/** Below this a resistor whose value nobody told is no excuse, volts. */
const GROUND = 0.05;

/** Said beside a low drop where there are resistors and they excuse nothing; undefined where there are none. */
export function noExcuse(place: TestPoint, ctx: LogContext): string | undefined {
  const current = testCurrent(ctx.meter);
  const told = neighbours(place, ctx).flatMap((ref) => {
    const ohms = RESISTOR.test(ref) ? ohmsOf(ref, ctx) : undefined;
    return ohms === undefined ? [] : [`${ref} (${formatValue(ohms, "ohm")})`];
  });
  if (told.length === 0) return undefined;
  return `${someOf(told, NAMED)} on ${place.net?.name} carries too little of the meter's ${formatValue(current, "A")} to explain it.`;
}

/** Parts on the pin's net that may carry current past the pin, without the pin's own. */
function neighbours({ net, ref: own }: TestPoint, ctx: LogContext): string[] {
  if (!net || !ctx.board) return [];
  const index = boardIndex(ctx.board.value);
  const refs = new Set(net.pins.map(({ ref }) => index.part(ref)?.ref ?? ""));
  return [...refs].filter((ref) => ref !== own && (RESISTOR.test(ref) || WINDING.test(ref)));
}

/** The least that the part may have, ohms: its value less its tolerance; of a pack ("8 x 4k7") that of one resistor. */
function ohmsOf(ref: string, ctx: LogContext): number | undefined {
  const value = partValue(partAt(ref, ctx), "resistance");
  return value && value.nominal * (1 - value.tolerance);
}
