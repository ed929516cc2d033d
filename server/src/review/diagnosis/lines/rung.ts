// Opens along a net by what else of it was rung: an end that rings through to others of its net is joined, so that the open
// lies at the end that rings to nothing.

import type { PinRef } from "../../../knowledge/types";
import type { LocatedObservation } from "../observation";

const keyOf = ({ ref, pin }: PinRef): string => `${ref}.${pin}`.toUpperCase();

/** The observations, with the end that was rung through elsewhere set beside the one that was not. */
export function besideWhatRings(all: readonly LocatedObservation[]): readonly LocatedObservation[] {
  const joined = new Set(all.flatMap(({ joined: pins = [] }) => pins.map(keyOf)));
  if (joined.size === 0) return all;
  return all.map((one): LocatedObservation => {
    const { finding } = one;
    if (finding?.kind !== "sign" || finding.sign !== "continuity-open" || finding.refs) return one;
    const pins = (finding.pins ?? []).filter((pin) => !joined.has(keyOf(pin)));
    const others = (finding.pins ?? []).filter((pin) => joined.has(keyOf(pin)));
    // Where both ring through to others of the net, the open is between.
    return pins.length < 2 && others.length > 0 ? { ...one, finding: { ...finding, pins, others } } : one;
  });
}
