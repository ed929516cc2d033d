// Parts that were off a net while it stayed low, and what that leaves of those that were off when it came back.
import type { LiftFinding } from "../../../compute/diagnosis/conflict";
import type { LocatedObservation } from "../observation";

/** What was off a net that stayed low without it is not what brought it back when more was taken off. */
export function stillLow(standing: readonly LocatedObservation[]): (lift: LiftFinding) => LiftFinding {
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
