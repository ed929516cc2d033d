// Parts that were off a net while it stayed low, and what that leaves of those that were off when it came back.
import type { LiftFinding } from "../../../compute/diagnosis/conflict";
import type { LocatedObservation } from "../observation";

const isOff = ({ table }: LocatedObservation): boolean =>
  table?.kind.observedAs === "pin-unpowered" || table?.kind.observedAs === "rail-to-ground";

/**
 * What a reading with something off its net tells, once the net was found wrong: what reads right with the power off says nothing
 * of a net of which only the level was wrong.
 * @param lowNet the net that a finding shows wrong
 */
export function liftsThatTell(
  standing: readonly LocatedObservation[],
  lowNet: (one: LocatedObservation) => readonly string[],
): (one: LocatedObservation) => readonly LiftFinding[] {
  const low = new Set(standing.flatMap(lowNet));
  const lowWhenOff = new Set(standing.filter(isOff).flatMap(lowNet));
  const innocent = stillLow(standing);
  return (one) =>
    (one.lifts ?? [])
      .filter(({ net, cleared }) => (cleared && isOff(one) ? lowWhenOff : low).has(net))
      .map(innocent);
}

/** What was off a net that stayed low without it is not what brought it back when more was taken off. */
function stillLow(standing: readonly LocatedObservation[]): (lift: LiftFinding) => LiftFinding {
  const stayed = new Set(
    standing.flatMap(({ lifts = [] }) =>
      lifts.flatMap(({ ref, net, cleared }) => (cleared ? [] : `${ref} ${net}`)),
    ),
  );
  return (lift) => {
    const off = [lift.ref, ...(lift.also ?? [])];
    const [ref, ...also] = off.filter((one) => !stayed.has(`${one} ${lift.net}`));
    if (!lift.cleared || ref === undefined || also.length + 1 === off.length) return lift;
    const { also: _, ...rest } = lift;
    return { ...rest, ref, ...(also.length > 0 ? { also } : {}) };
  };
}
