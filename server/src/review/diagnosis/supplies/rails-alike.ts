// Rails that are all low, and the lowest of them by one share of what they should read: what is regulated holds out longest,
// what is not follows the windings. That is what feeds all of them, off the board, and no part of each.

import type { LocatedObservation } from "../observation";

/** Rails that follow the windings; how far their shares lie apart; common practice, no source. */
const LEAST = 3;
const APART = 0.1;
/** Less than this is a rail that is gone, and not one that is low. */
const DEAD = 0.2;

/** The observations, with one finding in place of those of rails that are low together. */
export function withLowTogether(all: readonly LocatedObservation[]): readonly LocatedObservation[] {
  const tables = new Map<unknown, LocatedObservation[]>();
  for (const one of all) if (one.share) tables.set(one.table, [...(tables.get(one.table) ?? []), one]);
  const gone = new Set<LocatedObservation>();
  const found: LocatedObservation[] = [];
  for (const [table, rails] of tables) {
    const shares = rails.map(({ share }) => share?.of ?? 1).sort((a, b) => a - b);
    const [least = 0, last = 1] = [shares[0], shares[LEAST - 1]];
    const [first] = rails;
    const isLow = ({ finding }: LocatedObservation): boolean =>
      finding?.kind === "sign" && finding.sign === "rail-wrong" && !finding.dead;
    if (!first || rails.length < LEAST || !rails.every(isLow) || shares.some((share) => share >= 1)) continue;
    if (least < DEAD || last - least > APART * last) continue;
    const names = new Set(rails.flatMap(({ share }) => share?.rail ?? []));
    for (const one of all) {
      const { finding, phase } = one;
      const isOfRail = finding?.kind === "sign" && names.has(finding.rail ?? "") && phase === first.phase;
      if (isOfRail && (rails.includes(one) || (one.table === table && finding.sign === "ripple")))
        gone.add(one);
    }
    const refs = [...names];
    found.push({
      ...first,
      key: "all rails low",
      what: "the rails",
      refs: [],
      finding: {
        kind: "sign",
        sign: "rails-low-alike",
        refs,
        of: "the rails",
        outside: "what feeds the board in the machine: the transformer, its tap, the mains",
        says: `${refs.join(", ")} are all low, the lowest of them by one share (${Math.round(100 * least)} to ${Math.round(100 * last)} %).`,
      },
    });
  }
  return found.length === 0 ? all : [...all.filter((one) => !gone.has(one)), ...found];
}
