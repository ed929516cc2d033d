// Two nets that stand at one and the same voltage that is no level: two outputs that pull against each other, and so a bridge.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import { extentOf } from "../../../judge/compare";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Net } from "../../../knowledge/types";
import type { LogTable, Reading } from "../../../log/model";
import type { LocatedObservation, Observation } from "../observation";

/** Volts by which two pins of one node may be read apart. */
const ALIKE = 0.1;

interface Between {
  readonly one: LocatedObservation;
  readonly net: string;
  readonly ref: string;
  readonly volts: number;
}

/** One finding for each two nets with pins on one part, and the findings of their levels that it stands for. */
export function joinedLevels(
  all: readonly LocatedObservation[],
  board: Board,
): { readonly found: readonly LocatedObservation[]; readonly covered: ReadonlySet<LocatedObservation> } {
  const index = boardIndex(board);
  const between = all.flatMap((one): Between[] => {
    const { finding, table } = one;
    if (finding?.kind !== "sign" || finding.state !== "between" || finding.ref === undefined) return [];
    const net = index.net(finding.ref, finding.pin ?? "");
    const volts = table && voltsIn(table, finding.ref, finding.pin);
    return net && volts !== undefined ? [{ one, net: net.name, ref: finding.ref, volts }] : [];
  });
  const found: LocatedObservation[] = [];
  const covered = new Set<LocatedObservation>();
  for (const [i, first] of between.entries()) {
    const alike = between.filter(
      ({ net, volts, one }) =>
        net !== first.net &&
        one.table === first.one.table &&
        Math.abs(volts - first.volts) <= ALIKE &&
        haveOnePart(first.net, net, board),
    );
    const other = alike.find((one) => between.indexOf(one) > i);
    // Of several at one voltage it is what all of them hang on.
    if (!other || !first.one.table || new Set(alike.map(({ net }) => net)).size > 1) continue;
    if (isElsewhere(first.one.table, first.volts, [first.net, other.net], board)) continue;
    if (covered.has(first.one) || covered.has(other.one)) continue;
    for (const { one, net } of between) if (net === first.net || net === other.net) covered.add(one);
    const nets = [first.net, other.net];
    const of = nets.join(" and ");
    found.push(
      defined({
        ...first.one,
        key: `joined levels ${of}`.toUpperCase(),
        what: of,
        level: undefined,
        finding: {
          kind: "sign",
          sign: "levels-joined",
          nets,
          ref: first.ref,
          of: `the voltages on ${of}`,
          says: `${of} both read ${first.volts} V, which is no level: two outputs may pull against each other.`,
        } satisfies SignFinding,
      }),
    );
  }
  return { found, covered };
}

/** Another net was read at that voltage in the table. */
const isElsewhere = ({ readings }: LogTable, volts: number, nets: readonly string[], board: Board): boolean =>
  readings.some(({ spec, value, subject }) => {
    const extent = spec.quantity === "voltage" ? extentOf(value) : undefined;
    const net = boardIndex(board).net(subject.ref?.text ?? "", subject.pin?.text.trim() ?? "");
    return (
      extent !== undefined &&
      Math.abs(extent.low - volts) <= ALIKE &&
      net !== undefined &&
      !nets.includes(net.name)
    );
  });

function voltsIn({ readings }: LogTable, ref: string, pin: string | undefined): number | undefined {
  const at = readings.find(
    ({ subject, spec }) =>
      spec.quantity === "voltage" &&
      subject.ref?.text.toUpperCase() === ref.toUpperCase() &&
      subject.pin?.text.trim() === pin,
  );
  const extent = at && extentOf(at.value);
  return extent?.low === extent?.high ? extent?.low : undefined;
}

const haveOnePart = (one: string, other: string, { nets }: Board): boolean => {
  const refs = new Set(nets.get(other)?.pins.map(({ ref }) => ref) ?? []);
  return nets.get(one)?.pins.some(({ ref }) => refs.has(ref)) ?? false;
};

/** Volts: two of one drop, the rest of another, and what two junctions side by side drop less than one. Common practice, no source. */
const DROPS = { alike: 0.0021, spread: 0.008, least: 0.015, most: 0.07, junction: 0.4 } as const;
const OTHERS = 4;

/** Two lines that drop one and the same less than all others of their bus: each is measured through both. */
export function joinedDrops(table: LogTable, board: Board): Observation[] {
  if (table.kind.observedAs !== "pin-unpowered" || table.pieces) return [];
  const index = boardIndex(board);
  const byNet = new Map<Net, { readonly volts: number; readonly reading: Reading }>();
  for (const reading of table.readings) {
    const { ref, pin } = reading.subject;
    const extent = reading.spec.quantity === "voltage" ? extentOf(reading.value) : undefined;
    const net = index.net(ref?.text ?? "", pin?.text.trim() ?? "");
    if (
      net &&
      extent &&
      extent.low === extent.high &&
      !index.isGround(net) &&
      index.railOf(net) === undefined
    )
      byNet.set(net, { volts: extent.low, reading });
  }
  // "A3" and "A4" are of one bus.
  const busOf = ({ name }: Net): string => name.replace(/\d+$/, "");
  return [...new Set([...byNet.keys()].map(busOf))].flatMap((bus): Observation[] => {
    const lines = [...byNet].filter(([net]) => busOf(net) === bus);
    const [one, two, ...rest] = lines.sort(([, a], [, b]) => a.volts - b.volts);
    const next = rest[0]?.[1].volts ?? 0;
    if (!one || !two || rest.length < OTHERS || one[1].volts < DROPS.junction) return [];
    const isApart = next - two[1].volts >= DROPS.least && next - one[1].volts <= DROPS.most;
    const isOne = two[1].volts - one[1].volts < DROPS.alike;
    if (!isApart || !isOne || (rest.at(-1)?.[1].volts ?? 0) - next > DROPS.spread) return [];
    // Another chip on the line makes it drop less as well, but not on both.
    const load = Math.max(...rest.map(([net]) => net.pins.length));
    if (Math.min(one[0].pins.length, two[0].pins.length) > load) return [];
    if (!haveOnePart(one[0].name, two[0].name, board)) return [];
    const nets = [one[0].name, two[0].name];
    const of = nets.join(" and ");
    return [
      {
        key: `joined drops ${of}`.toUpperCase(),
        what: of,
        table,
        span: two[1].reading.cell.span,
        refs: [],
        finding: {
          kind: "sign",
          sign: "lines-joined",
          nets,
          of: `the drops on ${of}`,
          says: `${of} drop the same, less than the others of their bus: they are one.`,
        } satisfies SignFinding,
      },
    ];
  });
}
