// Two nets that stand at one and the same voltage that is no level: two outputs that pull against each other, and so a bridge.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import { extentOf } from "../../../judge/compare";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board } from "../../../knowledge/types";
import type { LogTable } from "../../../log/model";
import type { LocatedObservation } from "../observation";

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
