// A rail that is shorted to ground reads low under power, and its regulator gives nothing into it: the short says all of it.

import type { Board } from "../../../knowledge/types";
import type { LocatedObservation } from "../observation";

/** Ohms: a rail that is shorted, and more than any short leaves; common practice, no source. */
const SHORTED = 50;
const NO_SHORT = 1000;

/** Without what says of a rail, or of its regulator, no more than that the rail is low, where it was found shorted. */
export function withoutShorted(
  all: readonly LocatedObservation[],
  board: Board,
): readonly LocatedObservation[] {
  const rails = new Set(
    all.flatMap(({ finding, table }) =>
      finding?.kind === "sign" &&
      (finding.sign === "short-nearest" ||
        (finding.sign === "rail-short" && table?.kind.observedAs === "rail-to-ground"))
        ? (finding.rail ?? [])
        : [],
    ),
  );
  if (rails.size === 0) return all;
  const makers = new Set([...rails].flatMap((name) => board.rails.get(name)?.regulator?.toUpperCase() ?? []));
  const least = Math.min(
    ...all.flatMap(({ finding, toGround }) =>
      finding?.kind === "sign" && finding.sign === "rail-short" ? (toGround ?? []) : [],
    ),
  );
  return all.filter(({ finding, toGround }) => {
    if (finding?.kind !== "sign") return true;
    // What leads to a rail that is shorted reads less as well, and is no short.
    if (finding.sign === "rail-short" && least < SHORTED && toGround !== undefined && toGround > NO_SHORT)
      return false;
    if (finding.sign === "rail-wrong") return !(finding.state === "low" && rails.has(finding.rail ?? ""));
    return finding.sign !== "stage" || !makers.has(finding.refs?.[0]?.toUpperCase() ?? "");
  });
}
