// A chip that reads under power as if it had been counted from the wrong end, and is hot: it sits in its socket that way round.

import type { Board } from "../../../knowledge/types";
import type { LocatedObservation } from "../observation";
import { FROM_WRONG_END } from "./whole-table";

/** The observations with such a chip told of beside the mistake in counting. */
export function turnedInSocket(all: readonly LocatedObservation[], board: Board): LocatedObservation[] {
  const hot = new Set(
    all.flatMap(({ finding }) =>
      finding?.kind === "sign" && finding.sign === "hot" ? (finding.refs ?? []) : [],
    ),
  );
  return all.map((one): LocatedObservation => {
    const { finding, table } = one;
    if (finding?.kind !== "table" || finding.mistake !== FROM_WRONG_END || hot.size === 0) return one;
    const [ref, second] = finding.refs;
    const isTurned =
      ref !== undefined &&
      !second &&
      hot.has(ref) &&
      board.parts.get(ref)?.socketed === true &&
      table?.kind.observedAs === "pin-powered";
    return isTurned ? { ...one, finding: { ...finding, turned: true } } : one;
  });
}
