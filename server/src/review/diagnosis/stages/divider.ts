// Nodes that nothing but resistors and inputs decide: the resistors and what is at their other ends say what such a node stands at.
// One that stands elsewhere has an open resistor, or something on it that draws; one that stands there speaks for its resistors.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import { inputTechnology } from "../../../compute/logic/technology";
import { partValue } from "../../../compute/part-value";
import { partTestPoint, pinName, testPointOf } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Net, PinRef } from "../../../knowledge/types";
import { otherEndOf } from "../lines/ends";
import type { Observation } from "../observation";
import type { Volt } from "../supplies/off-supply";
import { type Voltages, voltsAt } from "./around";

/** Shares of what lies between the highest and the lowest end, and volts; common practice, no source. */
const DIVIDER = {
  /** Off by more is wrong, by less than half is right: what resistors of ten per cent make of it, and what a meter does. */
  parts: 0.5,
  meter: 0.02,
  /** As near as this to what is left without a resistor, and that is open. */
  open: 0.04,
  volts: 0.15,
  /** Below this it is held to ground. */
  ground: 0.3,
  /** Ends that differ by less divide nothing. */
  ends: 1,
  /** Ohms of all of them together: more, and the meter draws too. */
  most: 1e6,
} as const;

/** Resistors in a row, at most. */
const MOST_LEGS = 4;

interface Leg {
  /** Its resistors from the node on, at their nearer ends, with the nets of those. */
  readonly chain: readonly (PinRef & { readonly net: string })[];
  readonly ohms: number;
  readonly volts: number;
}

/** One observation a node. */
export function dividersObserved(around: Voltages): Observation[] {
  return [...around.all].flatMap(([name, reads]): Observation[] => {
    const net = around.board.nets.get(name);
    const [read] = reads;
    const legs = net && legsOf(net, around);
    if (!net || !read || !legs || legs.length < 2) return [];
    const ends = legs.map(({ volts }) => volts);
    const span = Math.max(...ends) - Math.min(...ends);
    if (span < DIVIDER.ends || 1 / conductance(legs) > DIVIDER.most) return [];
    const should = divided(legs);
    const off = read.volts - should;
    const f = (should - Math.min(...ends)) / span;
    const slack = (DIVIDER.parts * f * (1 - f) + DIVIDER.meter) * span + DIVIDER.volts;
    if (Math.abs(off) <= slack) return Math.abs(off) <= slack / 2 ? [sound(net, read, legs)] : [];
    const open = legs.filter((leg) => {
      const rest = legs.filter((other) => other !== leg);
      return Math.abs(read.volts - divided(rest)) <= DIVIDER.open * span + DIVIDER.volts;
    });
    // None of them open explains it all: those that would have grown.
    const grown = legs.filter(({ volts }) => (off < 0 ? volts > read.volts : volts < read.volts));
    return [wrong(net, read, open.length > 0 ? open : grown, should, around)];
  });
}

const conductance = (legs: readonly Leg[]): number => legs.reduce((sum, { ohms }) => sum + 1 / ohms, 0);
const divided = (legs: readonly Leg[]): number =>
  legs.reduce((sum, { ohms, volts }) => sum + volts / ohms, 0) / conductance(legs);

/** Undefined where anything else may decide the node, or an end of a resistor was not read. */
function legsOf(net: Net, around: Voltages): Leg[] | undefined {
  const { board, ctx } = around;
  const index = boardIndex(board);
  if (index.isGround(net) || index.railOf(net) !== undefined) return undefined;
  const legs: Leg[] = [];
  for (const at of net.pins) {
    if (isResistor(at)) {
      const leg = along(at, net, 0, []);
      if (leg === "unknown") return undefined;
      if (leg) legs.push(leg);
    } else if (!isIdle(at)) return undefined;
  }
  return legs;

  function isResistor({ ref, pin }: PinRef): boolean {
    return /^R\d/i.test(ref) || (/^RV\d/i.test(ref) && pin !== "2");
  }

  /** Through as many resistors as it takes to a node that is known; undefined where it ends at a mere input. */
  function along(at: PinRef, from: Net, before: number, above: Leg["chain"]): Leg | "unknown" | undefined {
    const end = /^RV/i.test(at.ref)
      ? index.net(at.ref, at.pin === "1" ? "3" : "1")
      : otherEndOf(at, from, board);
    const own = partValue(index.part(at.ref), "resistance")?.nominal;
    if (!end || own === undefined || end === net || above.length >= MOST_LEGS) return "unknown";
    const chain = [...above, { ...at, net: from.name }];
    const ohms = before + own;
    const volts = voltsAt(end, around, at.ref);
    if (volts !== undefined) return { chain, ohms, volts };
    const rest = end.pins.filter((pin) => pin.ref !== at.ref);
    const on = rest.filter(isResistor);
    if (!rest.every((pin) => on.includes(pin) || isIdle(pin))) return "unknown";
    const [next, other] = on;
    // A resistor to a mere input carries nothing.
    if (!next) return undefined;
    if (other) return "unknown";
    return along(next, end, ohms, chain);
  }

  function isIdle({ ref, pin }: PinRef): boolean {
    if (/^(?:C|TP)\d/i.test(ref)) return true;
    const { device, family } = partTestPoint(ref, board, ctx.library);
    const known = device?.pins.get(pin);
    const takes = known?.direction === "input" || /^ADJ/i.test(known?.name ?? "");
    return device?.kind !== "transistor" && takes && inputTechnology(family?.id) !== "ttl";
  }
}

const base = (net: Net, { reading }: Volt) => ({
  key: `divider ${net.name}`.toUpperCase(),
  what: `the voltage of ${net.name}`,
  table: reading.table,
  span: reading.cell.span,
});

const sound = (net: Net, read: Volt, legs: readonly Leg[]): Observation => ({
  ...base(net, read),
  refs: [],
  within: legs.flatMap(({ chain }) => chain.map(({ ref, pin }) => ({ ref, pin, across: true }))),
});

function wrong(net: Net, read: Volt, legs: readonly Leg[], should: number, { ctx }: Voltages): Observation {
  const place = testPointOf(read.reading.subject, ctx);
  const parts = legs.flatMap(({ chain }) => chain);
  const pin = place && pinName(place);
  return {
    ...base(net, read),
    refs: parts.map(({ ref }) => ref.toUpperCase()),
    net: net.name,
    finding: defined<SignFinding>({
      kind: "sign",
      sign: "divided",
      ref: place?.ref,
      pin,
      state: read.volts > should ? "high" : read.volts < DIVIDER.ground ? "low" : "between",
      nets: [...new Set([net.name, ...parts.map((one) => one.net)])],
      pins: parts.map(({ ref, pin: at }) => ({ ref, pin: at })),
      of: `the voltage of ${net.name}`,
      says: `${net.name} reads ${read.reading.value.typed} where its resistors make ${should.toFixed(1)} V.`,
    }),
  };
}
