// Nodes that nothing but resistors and inputs decide: the resistors and what is at their other ends say what such a node stands at.
// One that stands elsewhere has an open resistor, or something on it that draws; one that stands there speaks for its resistors.

import { defined } from "../../base/defined";
import type { SignFinding } from "../../compute/diagnosis/types";
import { inputTechnology } from "../../compute/logic/technology";
import { partValue } from "../../compute/part-value";
import { partTestPoint, pinName, testPointOf } from "../../judge/test-point";
import { boardIndex } from "../../knowledge/board-index";
import type { Net, PinRef } from "../../knowledge/types";
import { otherEndOf } from "./ends";
import type { Volt } from "./from-log-off-supply";
import { type Voltages, voltsAt } from "./from-log-stage";
import type { Observation } from "./observation";

/** Shares of what lies between the highest and the lowest end, and volts; common practice, no source. */
const DIVIDER = {
  /** Off by more is wrong, by less is right: resistors of ten per cent, rails of five. */
  wrong: 0.15,
  right: 0.08,
  volts: 0.15,
  /** Below this it is held to ground. */
  ground: 0.3,
  /** Ends that differ by less divide nothing. */
  ends: 1,
  /** Ohms of all of them together: more, and the meter draws too. */
  most: 1e6,
} as const;

interface Leg extends PinRef {
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
    const off = read.volts - divided(legs);
    const slack = (share: number): number => share * span + DIVIDER.volts;
    if (Math.abs(off) <= slack(DIVIDER.wrong))
      return Math.abs(off) <= slack(DIVIDER.right) ? [sound(net, read, legs)] : [];
    const open = legs.filter((leg) => {
      const rest = legs.filter((other) => other !== leg);
      return Math.abs(read.volts - divided(rest)) <= slack(DIVIDER.right);
    });
    // None of them open explains it all: those that would have grown.
    const grown = legs.filter(({ volts }) => (off < 0 ? volts > read.volts : volts < read.volts));
    return [wrong(net, read, open.length > 0 ? open : grown, divided(legs), around)];
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
    if (/^R\d/i.test(at.ref)) {
      const end = otherEndOf(at, net, board);
      const ohms = partValue(index.part(at.ref), "resistance")?.nominal;
      const volts = end && voltsAt(end, around, at.ref);
      if (!end || ohms === undefined) return undefined;
      if (volts !== undefined) legs.push({ ...at, ohms, volts });
      // A resistor to a mere input carries nothing.
      else if (!end.pins.every((pin) => pin.ref === at.ref || isIdle(pin))) return undefined;
    } else if (!isIdle(at)) return undefined;
  }
  return legs;

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
  within: legs.map(({ ref, pin }) => ({ ref, pin, across: true })),
});

function wrong(net: Net, read: Volt, legs: readonly Leg[], should: number, { ctx }: Voltages): Observation {
  const place = testPointOf(read.reading.subject, ctx);
  const pin = place && pinName(place);
  return {
    ...base(net, read),
    refs: legs.map(({ ref }) => ref.toUpperCase()),
    net: net.name,
    finding: defined<SignFinding>({
      kind: "sign",
      sign: "divided",
      ref: place?.ref,
      pin,
      state: read.volts > should ? "high" : read.volts < DIVIDER.ground ? "low" : "between",
      nets: [net.name],
      pins: legs.map(({ ref, pin: at }) => ({ ref, pin: at })),
      of: `the voltage of ${net.name}`,
      says: `${net.name} reads ${read.reading.value.typed} where its resistors make ${should.toFixed(1)} V.`,
    }),
  };
}
