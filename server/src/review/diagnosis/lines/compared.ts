// What readings say together, as the diagnosis takes it: pins of one net that differ, states against truth tables.

import { defined } from "../../../base/defined";
import type { DiagnosisFinding } from "../../../compute/diagnosis/types";
import { netAgreement } from "../../../compute/nets/agreement";
import type { Judgement } from "../../../judge";
import type { LogContext } from "../../../judge/context";
import { reviewDeviceStates } from "../../../judge/logic-states";
import {
  byNet,
  comparedAs,
  type LocatedReading,
  placedReadings,
  statesByRef,
} from "../../../judge/nets/block-nets";
import { statesApart } from "../../../judge/nets/states-apart";
import type { TestPoint } from "../../../judge/test-point";
import type { PinRef } from "../../../knowledge/types";
import type { LogBlock, LogTable, Reading } from "../../../log/model";
import type { LogicState } from "../../../quantity/words";
import { inWords } from "../../../text/saying";
import type { Observation } from "../observation";

/** Nets whose pins differ although none of them is out by itself. */
export function* netObservations(
  table: LogTable,
  judgements: ReadonlyMap<Reading, Judgement>,
  ctx: LogContext,
): Iterable<Observation> {
  for (const { net, low, high } of statesApart(table, ctx)) {
    yield {
      key: `net ${net.name}`,
      what: net.name,
      table,
      span: high.reading.cell.span,
      refs: [],
      net: net.name,
      finding: { kind: "net", net: net.name, pins: [low, high].map(({ ref, pin }) => ({ ref, pin })) },
    };
  }
  const as = comparedAs(table);
  if (!as) return;
  const placed = placedReadings(table, ctx);
  for (const { net, readings } of byNet(placed)) {
    if (readings.length < 2) continue;
    if (readings.some(({ reading }) => judgements.get(reading)?.verdict === "out-of-limits")) continue;
    const result = netAgreement({ net, kind: as.kind, readings });
    const [first] = result.ok ? result.disagreements.filter((d) => d.verdict === "out-of-limits") : [];
    const last = first && (first.high.at(-1) as LocatedReading | undefined);
    if (!first || !last) continue;
    yield {
      key: `net ${net}`,
      what: net,
      table,
      span: last.reading.cell.span,
      refs: [],
      net,
      finding: defined<DiagnosisFinding>({
        kind: "net",
        net,
        pins: [...first.low, ...first.high].map(pinOf),
        apart:
          aloneOf(first.low, first.high) ??
          aloneOf(first.high, first.low) ??
          unlikeItsChip(first.low, first.high, placed),
      }),
    };
  }
}

const pinOf = ({ ref, pin }: PinRef): PinRef => ({ ref, pin });

/** The only pin of the one side, where those of the other bear each other out. */
const aloneOf = ([one, ...more]: readonly PinRef[], others: readonly PinRef[]): PinRef | undefined =>
  one && more.length === 0 && others.length > 1 ? pinOf(one) : undefined;

/**
 * Readings of a chip that show what its pins usually read, how much further off the one has to be than the other, and volts that
 * pins of a chip differ by anyway. Common practice, no source.
 */
const USUAL = { least: 3, further: 4, off: 0.02 } as const;

interface At extends PinRef {
  readonly value: number;
}

/** Of two pins that differ, the one that differs from the rest of its own chip as well. */
function unlikeItsChip(low: readonly At[], high: readonly At[], all: readonly At[]): PinRef | undefined {
  const pair = [...low, ...high];
  const [a, b] = pair;
  if (!a || !b || pair.length > 2) return undefined;
  const offOf = ({ ref, pin, value }: At): number => {
    const others = all
      .filter((one) => one.ref === ref && one.pin !== pin && Number.isFinite(one.value))
      .map((one) => one.value)
      .sort((x, y) => x - y);
    const usual = others.length < USUAL.least ? undefined : others[others.length >> 1];
    return usual === undefined ? Number.NaN : Math.abs(value - usual);
  };
  const known = [offOf(a), offOf(b)];
  if (known.every(Number.isNaN)) return undefined;
  const [offA = 0, offB = 0] = known.map((off) =>
    Number.isNaN(off) ? USUAL.off : Math.max(off, USUAL.off / 2),
  );
  return offA > USUAL.further * offB ? pinOf(a) : offB > USUAL.further * offA ? pinOf(b) : undefined;
}

/** Gates whose recorded states contradict their truth tables, and those whose states agree. */
export function* gateObservations(block: LogBlock, ctx: LogContext): Iterable<Observation> {
  for (const { place, states } of statesByRef(block, ctx).values()) {
    const wrong = new Map(
      reviewDeviceStates(place, states, ctx).flatMap(({ pins, verdict }) =>
        pins.map((pin) => [pin, verdict] as const),
      ),
    );
    yield* sectionsTold(place, states, ctx);
    for (const gate of place.device?.gates ?? []) {
      const output = gate.outputs.find((pin) => states.has(pin));
      const reading = output === undefined ? undefined : states.get(output)?.reading;
      if (output === undefined || !reading) continue;
      const verdict = wrong.get(output);
      const whole = gate.inputs.every((pin) => states.has(pin));
      // One that rests on a floating input, or of which half was read, says neither.
      if (verdict === "suspect" || (verdict === undefined && !whole)) continue;
      const pins = [...gate.inputs, output];
      const steady = pins.every((pin) => ["high", "low"].includes(states.get(pin)?.state ?? "high"));
      yield { ...gateTold(place, gate.name, pins, verdict !== undefined, steady), ...at(reading) };
    }
  }

  function at(reading: Reading) {
    return { table: reading.table, span: reading.cell.span };
  }
}

/** What is more than a simple gate: an output that its truth table does not allow accuses the chip, and its net less. */
function* sectionsTold(
  place: TestPoint,
  states: ReadonlyMap<string, { readonly state: LogicState; readonly reading: Reading }>,
  ctx: LogContext,
): Iterable<Observation> {
  const ofGates = new Set((place.device?.gates ?? []).flatMap(({ outputs }) => outputs));
  for (const { pins, verdict, says } of reviewDeviceStates(place, states, ctx)) {
    const pin = pins.find((one) => states.has(one) && !ofGates.has(one));
    const reading = pin === undefined ? undefined : states.get(pin)?.reading;
    if (!pin || !reading || verdict !== "out-of-limits") continue;
    const of = `${place.ref}'s truth table at pin ${pin}`;
    yield {
      key: `section ${place.ref} ${pin}`.toUpperCase(),
      what: of,
      refs: [place.ref.toUpperCase()],
      finding: { kind: "sign", sign: "contradiction", refs: [place.ref], of, says: inWords(says) },
      table: reading.table,
      span: reading.cell.span,
    };
  }
}

function gateTold(
  place: TestPoint,
  gate: string,
  pins: readonly string[],
  contradicts: boolean,
  steady: boolean,
): Omit<Observation, "table" | "span"> {
  const { ref } = place;
  return {
    key: `gate ${ref} ${gate}`.toUpperCase(),
    what: `${ref} gate ${gate}`,
    refs: [ref.toUpperCase()],
    ...(contradicts
      ? { finding: defined<DiagnosisFinding>({ kind: "gate", ref, gate, pins, steady: steady || undefined }) }
      : { agrees: { ref, gate } }),
  };
}
