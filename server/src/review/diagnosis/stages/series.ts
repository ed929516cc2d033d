// Voltages at both ends of resistors: more across one than it could bear, or more than across its sisters, which do the same work.

import { partValue } from "../../../compute/part-value";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Net } from "../../../knowledge/types";
import { otherEndOf } from "../lines/ends";
import type { Observation } from "../observation";
import { netsWith, STAGE, stageSeen, type Voltages, voltsAt } from "./around";

/**
 * More across a resistor of few ohms, or across one of a network, than it could bear: it passes nothing, or what hangs behind it is
 * shorted.
 */
export function series(ref: string, around: Voltages): Observation[] {
  const { board, volts } = around;
  const ohms = partValue(boardIndex(board).part(ref), "resistance")?.nominal;
  if (ohms === undefined || ohms > STAGE.fewOhms) return [];
  for (const [a, b] of endsOf(ref, board)) {
    const [va, vb] = [a, b].map((net) => (volts.has(net.name) ? voltsAt(net, around, ref) : undefined));
    const at = volts.get(b.name);
    if (!at || va === undefined || vb === undefined || (va - vb) ** 2 / ohms < STAGE.watts) continue;
    const behind = Math.abs(va) < Math.abs(vb) ? a : b;
    const loads = behind.pins.flatMap((pin) => (/^[CD]\d/i.test(pin.ref) ? pin.ref : []));
    const what = `${ref} has ${Math.abs(va - vb).toFixed(1)} V across it, more than it would bear.`;
    const pins = [a, b].flatMap((net) => net.pins.filter((pin) => pin.ref === ref));
    return [stageSeen(at, ref, [ref, ...new Set(loads)], what, pins)];
  }
  return [];
}

/** The nets at both ends of a resistor, or of each of a network. */
function endsOf(ref: string, board: Board): (readonly [Net, Net])[] {
  const nets = netsWith(ref, board);
  const pairs = nets.flatMap((net) =>
    net.pins.flatMap((pin): (readonly [Net, Net])[] => {
      const other = pin.ref === ref ? otherEndOf(pin, net, board) : undefined;
      return other ? [[net, other]] : [];
    }),
  );
  return pairs.filter(
    ([a, b], i) => pairs.findIndex(([c, d]) => (c === b && d === a) || (c === a && d === b)) === i,
  );
}

/** Volts by which each end of a resistor without current stands outside those of its sisters; common practice, no source. */
const OUTSIDE = { driven: 0.08, load: 0.5, sisters: 0.6 } as const;

interface Element {
  readonly ref: string;
  readonly ohms: number;
  readonly ends: readonly [Net, Net];
  readonly low: number;
  readonly high: number;
}

/**
 * Of resistors of one value between drivers and loads one has its driver's end nearer to the supply it switches to, and the load's
 * end nearer to the other: no current flows, though the load still stands at its own supply, so that it is the resistor.
 */
export function withoutCurrent(around: Voltages): Observation[] {
  const { volts } = around;
  const all = elementsIn(around);
  return all.flatMap((one) => {
    const sisters = all.filter(
      (other) => other.ohms === one.ohms && other.ends.every((net) => !one.ends.includes(net)),
    );
    const isAlone =
      sisters.length > 0 &&
      sisters.every(
        ({ low, high }) => one.low < low - OUTSIDE.driven && one.high > high + OUTSIDE.load && high > low,
      ) &&
      spread(sisters.map(({ high }) => high)) < OUTSIDE.sisters;
    const at = volts.get(one.ends[1].name);
    if (!isAlone || !at) return [];
    const says = `${one.ref} has ${(one.high - one.low).toFixed(1)} V across it and its sisters ${(sisters[0]!.high - sisters[0]!.low).toFixed(1)} V: no current flows through it.`;
    const pins = one.ends.flatMap((net) => net.pins.filter((pin) => pin.ref === one.ref));
    return [stageSeen(at, one.ref, [one.ref], says, pins)];
  });
}

const spread = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);

/** Resistors of which both ends were read, and neither end is a supply. */
function elementsIn(around: Voltages): Element[] {
  const { board, volts } = around;
  const index = boardIndex(board);
  const isSignal = (net: Net): boolean =>
    volts.has(net.name) && !index.isGround(net) && index.railOf(net) === undefined;
  const refs = new Set(
    [...volts.keys()].flatMap(
      (name) => board.nets.get(name)?.pins.flatMap(({ ref }) => (/^RN?\d/i.test(ref) ? ref : [])) ?? [],
    ),
  );
  return [...refs].flatMap((ref) => {
    const ohms = partValue(index.part(ref), "resistance")?.nominal;
    if (ohms === undefined) return [];
    return endsOf(ref, board).flatMap((ends): Element[] => {
      if (!ends.every(isSignal)) return [];
      const [a, b] = ends.map((net) => voltsAt(net, around, ref));
      if (a === undefined || b === undefined) return [];
      return [{ ref, ohms, ends, low: Math.min(a, b), high: Math.max(a, b) }];
    });
  });
}
