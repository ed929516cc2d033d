// Tables that are wrong as a whole and that no pin's own window shows: a probe without a supply, a meter on the wrong
// range. One finding in place of those of their readings.

import { partValue } from "../../../compute/part-value";
import type { Judgement } from "../../../judge";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { partTestPoint } from "../../../judge/test-point";
import type { LogTable, Reading } from "../../../log/model";
import type { Observation } from "../observation";
import { hums } from "./no-counts";
import { reversedLeads } from "./reversed";
import { slidJunctions } from "./slid-junctions";
import { isCreeping, placesRead, refsOf, wholeTable } from "./whole-table";

/** Readings at least; fewer may be what they are. */
const LEAST = { floating: 5, off: 3, none: 3, over: 4, rings: 5, beyond: 2, wild: 2 } as const;
/** How far a sound part is from what is marked on it; common practice, no source. */
const SPREAD = { resistor: [0.8, 1.25], capacitor: [0.6, 1.6] } as const;
/** What the rest of a board leaves of a resistor that is measured in it, at the least; common practice, no source. */
const BESIDE_OTHERS = 0.3;
/** What a wrong range or a unit left out makes of a figure. */
const TIMES = [1e3, 1e-3, 1e6, 1e-6] as const;

export const tableMistake = (
  table: LogTable,
  judgements: ReadonlyMap<Reading, Judgement>,
  ctx: LogContext,
): Observation | undefined =>
  floating(table) ??
  hums(table, ctx) ??
  multiplier(table, judgements, ctx) ??
  reversedLeads(table, ctx) ??
  slidJunctions(table, ctx) ??
  beyondRange(table, judgements, ctx) ??
  noneConducts(table, judgements, ctx) ??
  noneRings(table) ??
  overRange(table) ??
  charged(table);

/** Pairs of places that are one net each, and none of them rings: the beeper or its lead, before so many tracks. */
function noneRings(table: LogTable): Observation | undefined {
  if (table.kind.observedAs !== "ends" || (table.section.apart ?? []).length > 0) return undefined;
  const readings = table.readings.filter(({ value }) => value.kind !== "empty");
  const isOpen = ({ value }: Reading): boolean =>
    value.kind === "open" || (value.kind === "result" && value.ok === false);
  if (readings.length < LEAST.rings || !readings.every(isOpen)) return undefined;
  return wholeTable(table, readings, [], {
    of: "what was rung out",
    mistake: "the lead was off or made no contact",
    says: `None of ${readings.length} pairs rings.`,
    again: "Short the leads together to hear the beeper, then ring one pair again",
  });
}

/** Voltages of which several are beyond what the meter shows: its range, since no place under power is open. */
function overRange(table: LogTable): Observation | undefined {
  const { observedAs } = table.kind;
  if (observedAs !== "pin-powered" && observedAs !== "rail") return undefined;
  const readings = table.readings.filter(
    ({ spec, value }) => spec.quantity === "voltage" && value.kind === "open",
  );
  if (readings.length < LEAST.beyond) return undefined;
  const refs = refsOf(readings);
  const places = placesRead(readings);
  const whose = places.join(", ");
  return wholeTable(table, readings, refs, {
    of: `the voltages of ${whose}`,
    mistake: "the meter was on another range",
    says: `${readings.length} voltages of ${whose} read over the range.`,
    again: `Put the meter on a higher range and read ${places[0]} again`,
  });
}

/** Ohms that are below nothing, or that go on changing: something there is still charged. */
function charged(table: LogTable): Observation | undefined {
  const { observedAs } = table.kind;
  if (observedAs !== "part" && observedAs !== "pin-unpowered") return undefined;
  const ohms = table.readings.filter(
    ({ spec, value }) => spec.quantity === "resistance" && value.kind !== "empty",
  );
  const wild = ohms.filter((one) => (extentOf(one.value)?.high ?? 0) < 0 || isCreeping(one));
  if (wild.length < LEAST.wild || wild.length * 2 < ohms.length) return undefined;
  const refs = refsOf(wild);
  const whose = refs.join(", ");
  return wholeTable(table, ohms, refs, {
    of: `the resistance of ${whose}`,
    mistake: "the board was still charged",
    says: `${whose} ${refs.length === 1 ? "reads below nothing, or goes" : "read below nothing, or go"} on changing.`,
    again: `With power off, discharge the supplies through a resistor made for it, measure next to nothing there, and read ${refs[0]} again`,
  });
}

/** Resistors of known value, or rails with chips on them, and every one of them open: the leads, or the range. */
function noneConducts(
  table: LogTable,
  judgements: ReadonlyMap<Reading, Judgement>,
  ctx: LogContext,
): Observation | undefined {
  const { observedAs } = table.kind;
  if (observedAs !== "part" && observedAs !== "rail-to-ground") return undefined;
  const readings = table.readings.filter(
    ({ value, spec }) => value.kind !== "empty" && spec.quantity === "resistance",
  );
  const isKnown = (reading: Reading): boolean =>
    observedAs === "part"
      ? /^R\d/i.test(reading.subject.ref?.text ?? "") &&
        meantFor(reading, judgements.get(reading), ctx) !== undefined
      : reading.subject.rail !== undefined;
  if (readings.length < LEAST.none || !readings.every((one) => one.value.kind === "open" && isKnown(one)))
    return undefined;
  if ((table.section.apart ?? []).length > 0 || readings.some(({ apart }) => apart)) return undefined;
  const places = placesRead(readings);
  if (places.length < LEAST.none) return undefined;
  const whose = places.join(", ");
  return wholeTable(table, readings, refsOf(readings), {
    of: `the resistance of ${whose}`,
    mistake: "the lead was off ground or made no contact, or the meter was on another range",
    says: `All of ${whose} read open.`,
    again: `Short the leads together to see that the meter reads nothing, then read ${places[0]} again`,
  });
}

/** Every resistor above one value reads over, and those below it read right: the range ends between them. */
function beyondRange(
  table: LogTable,
  judgements: ReadonlyMap<Reading, Judgement>,
  ctx: LogContext,
): Observation | undefined {
  if (table.kind.observedAs !== "part" || (table.section.apart ?? []).length > 0) return undefined;
  const known = table.readings.flatMap((reading) => {
    const meant = reading.spec.quantity === "resistance" && meantFor(reading, judgements.get(reading), ctx);
    return meant && reading.value.kind !== "empty" ? [{ reading, meant }] : [];
  });
  const over = known.filter(({ reading }) => reading.value.kind === "open");
  const others = known.filter((one) => !over.includes(one));
  const most = Math.max(...others.flatMap(({ reading }) => extentOf(reading.value)?.high ?? []));
  const least = Math.min(...over.map(({ meant }) => meant.low));
  if (over.length < LEAST.over || others.length === 0 || !(most < least)) return undefined;
  const refs = refsOf(over.map(({ reading }) => reading));
  const whose = refs.join(", ");
  return wholeTable(
    table,
    over.map(({ reading }) => reading),
    refs,
    {
      of: `the resistance of ${whose}`,
      mistake: "the meter was on another range",
      says: `All of ${whose} read over, and only what is smaller reads at all.`,
      again: `Put the meter on a higher range and read ${refs[0]} again`,
    },
  );
}

function floating(table: LogTable): Observation | undefined {
  const states = table.readings.filter(({ value }) => value.kind === "state");
  if (
    states.length < LEAST.floating ||
    !states.every(({ value }) => value.kind === "state" && value.state === "floating")
  )
    return undefined;
  const refs = refsOf(states);
  const whose = refs.join(", ");
  return wholeTable(table, states, refs, {
    of: `the states of ${whose}`,
    mistake: "the probe was off ground or without its supply",
    says: `Every pin of ${whose} that was probed floats.`,
    again: `Clip the probe to the board's ground and +5 V, try it on both, and read ${whose} again`,
  });
}

/** What a reading should be, in the unit of its table: from the board file, else from what is marked on the part. */
function meantFor(reading: Reading, judgement: Judgement | undefined, ctx: LogContext) {
  const { reference } = judgement ?? {};
  const { low, high } = reference ?? {};
  if (reference?.kind === "board" && low !== undefined && high !== undefined && low > 0)
    return { low, high, inCircuit: low };
  const ref = reading.subject.ref?.text;
  const part = ref === undefined ? undefined : partTestPoint(ref, ctx.board?.value, ctx.library).part;
  const quantity = reading.spec.quantity;
  const nominal =
    quantity === "resistance" || quantity === "capacitance" ? partValue(part, quantity)?.nominal : undefined;
  if (nominal === undefined || reading.measure === "esr") return undefined;
  const [under, over] = quantity === "resistance" ? SPREAD.resistor : SPREAD.capacitor;
  const inCircuit = quantity === "resistance" ? nominal * BESIDE_OTHERS : nominal * under;
  return { low: nominal * under, high: nominal * over, inCircuit };
}

/** Readings off by the same thousand from what they should be, and none of them far off otherwise. */
function multiplier(
  table: LogTable,
  judgements: ReadonlyMap<Reading, Judgement>,
  ctx: LogContext,
): Observation | undefined {
  const { observedAs } = table.kind;
  if (observedAs !== "part" && observedAs !== "rail-to-ground") return undefined;
  const known = table.readings.flatMap((reading) => {
    const meant = meantFor(reading, judgements.get(reading), ctx);
    const extent = extentOf(reading.value);
    if (!meant || !extent || !(extent.low > 0) || !Number.isFinite(extent.high)) return [];
    const fits = (times: number): boolean =>
      extent.low * times >= (times === 1 ? meant.low : meant.inCircuit) && extent.high * times <= meant.high;
    return [{ reading, fits }];
  });
  for (const times of TIMES) {
    const off = known.filter(({ fits }) => !fits(1) && fits(times));
    const [first] = off;
    // Two are enough where there are no others and both are right in another unit.
    const least = known.length === 2 && observedAs === "part" ? 2 : LEAST.off;
    if (!first || off.length < least || off.length < known.filter(({ fits }) => !fits(1)).length) continue;
    // One range is one unit: of parts of several sizes those that were read in it are off, and the rest are right.
    if (observedAs === "rail-to-ground" && off.length < known.length) continue;
    const readings = off.map(({ reading }) => reading);
    const places = readings.flatMap(({ subject }) => subject.rail?.text ?? subject.ref?.text ?? []);
    const whose = [...new Set(places)].join(", ");
    return wholeTable(table, readings, refsOf(readings), {
      of: `the ${first.reading.spec.quantity} of ${whose}`,
      mistake: "the meter was on another range, or the unit is",
      says: `All of ${whose} read ${times > 1 ? `1/${times}` : `${1 / times} times`} of what they should.`,
      again: `Look at the meter's range and unit, and read ${places[0]} again`,
    });
  }
  return undefined;
}
