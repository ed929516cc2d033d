// Two rails that one bridge makes of a winding with a tap, both with ripple at the mains' own frequency: one finding, of what
// they share.

import type { Board } from "../../../knowledge/types";
import type { LocatedObservation } from "../observation";

/** The one finding, and the two that it stands for. */
export function windingHalves(
  all: readonly LocatedObservation[],
  board: Board,
): { readonly found: readonly LocatedObservation[]; readonly covered: ReadonlySet<LocatedObservation> } {
  const byBridge = new Map<string, LocatedObservation[]>();
  for (const one of all) {
    const { finding } = one;
    if (finding?.kind !== "sign" || finding.sign !== "ripple-mains") continue;
    const net = board.nets.get(board.rails.get(finding.rail ?? "")?.net ?? "");
    for (const ref of new Set(net?.pins.map((pin) => pin.ref) ?? []))
      if (isBridge(ref, board)) byBridge.set(ref, [...(byBridge.get(ref) ?? []), one]);
  }
  const found: LocatedObservation[] = [];
  const covered = new Set<LocatedObservation>();
  for (const [bridge, both] of byBridge) {
    const rails = [
      ...new Set(both.flatMap(({ finding }) => (finding?.kind === "sign" ? (finding.rail ?? []) : []))),
    ];
    const [first] = both;
    if (rails.length < 2 || !first || first.finding?.kind !== "sign") continue;
    for (const one of both) covered.add(one);
    const { net: _net, ...rest } = first;
    found.push({
      ...rest,
      key: `winding ${bridge}`.toUpperCase(),
      // No regulator behind it brings back the peaks that its bridge does not get.
      refs: [bridge.toUpperCase()],
      what: `the ripple of ${rails.join(" and ")}`,
      finding: {
        ...first.finding,
        sign: "winding-half",
        of: `the ripple of ${rails.join(" and ")}`,
        says: `${rails.join(" and ")} both have ripple at the mains' own frequency, and ${bridge} makes both from one winding.`,
      },
    });
  }
  return { found, covered };
}

/** Four ends, each on a net of its own, and a rectifier by its letters. */
const isBridge = (ref: string, { nets }: Board): boolean =>
  /^(?:BR|DB|D)\d/i.test(ref) &&
  [...nets.values()].filter(({ pins }) => pins.some((pin) => pin.ref === ref)).length === 4;

/** The ripple of a rail whose input has lost half of its peaks is of the same kind. */
export function ripplesOn(all: readonly LocatedObservation[], board: Board): readonly LocatedObservation[] {
  const mains = new Set(
    all.flatMap(({ finding }) =>
      finding?.kind === "sign" && finding.sign === "ripple-mains" ? (finding.rail ?? []) : [],
    ),
  );
  if (mains.size === 0) return all;
  return all.map((one) => {
    const { finding } = one;
    if (finding?.kind !== "sign" || finding.sign !== "ripple") return one;
    const input = board.rails.get(finding.rail ?? "")?.input;
    return input !== undefined && mains.has(input)
      ? { ...one, finding: { ...finding, sign: "ripple-mains" as const } }
      : one;
  });
}
