// Lines of a network of resistors under power: all of them stand where their resistors put them, and one stands at no level. Its
// resistor does not reach it, or what reads the line leaks.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import { partTestPoint, pinName, testPointOf } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Net, PinRef } from "../../../knowledge/types";
import { otherEndOf } from "../lines/ends";
import type { Observation } from "../observation";
import type { Volt } from "../supplies/off-supply";
import type { Voltages } from "./around";

/** Volts; common practice, no source. */
const LINE = {
  /** A sister stands this near to what its resistor leads to. */
  rests: 0.5,
  /** The line itself is further off than this, and from the other level as well, so that nothing pulls it there. */
  off: 0.8,
  /** Lines that hang on each other stand this near. */
  alike: 0.15,
} as const;

/** Fewer lines at one voltage may be there for reasons of their own. Common practice, no source. */
const LEAST_LINES = 4;

/** Lines of one network that all stand at the same no level hang on each other by it, and it hangs on nothing. */
export function looseNetworks(around: Voltages): Observation[] {
  const { board, all } = around;
  const networks = new Map<string, Line[]>();
  for (const [name, [first]] of all) {
    const net = board.nets.get(name);
    for (const pull of net && first ? net.pins.filter(isElement) : []) {
      const end = net && otherEndOf(pull, net, board);
      const rest = end && restOf(end, around);
      if (
        !net ||
        !first ||
        rest === undefined ||
        !net.pins.every((at) => at === pull || isReader(at, around))
      )
        continue;
      networks.set(pull.ref, [...(networks.get(pull.ref) ?? []), { net, read: first, rest }]);
    }
  }
  return [...networks].flatMap(([ref, lines]): Observation[] => {
    const volts = lines.map(({ read }) => read.volts);
    const [first] = lines;
    const isAfloat = ({ read, rest }: Line): boolean =>
      Math.abs(read.volts - rest) > LINE.off && Math.abs(read.volts - (rest > 0 ? 0 : 5)) > LINE.rests;
    if (!first || lines.length < LEAST_LINES || Math.max(...volts) - Math.min(...volts) > LINE.alike)
      return [];
    if (!lines.every(isAfloat)) return [];
    return [
      {
        key: `afloat ${ref}`.toUpperCase(),
        what: `the lines of ${ref}`,
        table: first.read.reading.table,
        span: first.read.reading.cell.span,
        refs: [ref.toUpperCase()],
        instead: new Set(lines.map(({ read }) => read.reading.cell.span.start)),
        finding: {
          kind: "sign",
          sign: "lines-afloat",
          pins: [{ ref, pin: "1" }],
          of: `the voltages of the lines of ${ref}`,
          says: `${lines.length} lines of ${ref} read ${first.read.volts} V, neither high nor low; all of them share pin 1.`,
        },
      },
    ];
  });
}

interface Line {
  readonly net: Net;
  readonly read: Volt;
  readonly rest: number;
}

const isElement = ({ ref, pin }: PinRef): boolean => /^RN\d/i.test(ref) && pin !== "1";

/** One observation a line. */
export function looseLines(around: Voltages): Observation[] {
  const { board } = around;
  return [...around.all].flatMap(([name, reads]): Observation[] => {
    const net = board.nets.get(name);
    const [read] = reads;
    if (!net || !read || reads.some(({ volts }) => Math.abs(volts - read.volts) > LINE.rests)) return [];
    const pull = net.pins.find(isElement);
    const end = pull && otherEndOf(pull, net, board);
    const rest = end && restOf(end, around);
    if (!pull || rest === undefined || !net.pins.every((at) => at === pull || isReader(at, around)))
      return [];
    const far = Math.abs(read.volts - rest);
    const other = rest > 0 ? 0 : 5;
    if (far < LINE.off || Math.abs(read.volts - other) < LINE.rests) return [];
    return hasSisters(pull, net, rest, around) ? [told(net, read, pull, rest, around)] : [];
  });
}

/** What the common end stands at; undefined where it is neither ground nor a rail that is up. */
function restOf(end: Net, { board, volts }: Voltages): number | undefined {
  const index = boardIndex(board);
  if (index.isGround(end)) return 0;
  return index.railOf(end) === undefined ? undefined : (volts.get(end.name)?.volts ?? 5);
}

/** It reads the line, or lies off the board; an output would decide it. */
function isReader({ ref, pin }: PinRef, { board, ctx }: Voltages): boolean {
  if (/^(?:J|P|CN|CON|TP|C|SW)\d/i.test(ref)) return true;
  const direction = partTestPoint(ref, board, ctx.library).device?.pins.get(pin)?.direction;
  return direction === "input" || direction === "bidirectional";
}

/** At least two lines of the same network were read, and stand where it puts them. */
function hasSisters({ ref }: PinRef, net: Net, rest: number, { board, all }: Voltages): boolean {
  const sisters = [...board.nets.values()].filter(
    (one) => one !== net && one.pins.some((at) => at.ref === ref && at.pin !== "1"),
  );
  const right = sisters.filter((one) => {
    const reads = all.get(one.name) ?? [];
    return reads.length > 0 && reads.every(({ volts }) => Math.abs(volts - rest) < LINE.rests);
  });
  return right.length >= 2;
}

function told(
  net: Net,
  { reading, volts }: Volt,
  pull: PinRef,
  rest: number,
  { ctx }: Voltages,
): Observation {
  const place = testPointOf(reading.subject, ctx);
  return {
    key: `pulled ${net.name}`.toUpperCase(),
    what: `the voltage of ${net.name}`,
    table: reading.table,
    span: reading.cell.span,
    refs: [pull.ref.toUpperCase()],
    net: net.name,
    finding: defined<SignFinding>({
      kind: "sign",
      sign: "pulled",
      ref: place?.ref,
      pin: place && pinName(place),
      state: "between",
      nets: [net.name],
      pins: [pull],
      of: `the voltage of ${net.name}`,
      says: `${net.name} reads ${volts} V, and the other lines of ${pull.ref} stand ${rest > 0 ? "high" : "low"}.`,
    }),
  };
}
