// What a repair has made history: readings of what was replaced since, and functions whose cause was found and renewed.

import { boardIndex } from "../../../knowledge/board-index";
import type { FrontMatter } from "../../../knowledge/load-front-matter";
import type { Board } from "../../../knowledge/types";
import type { Timeline } from "../../../log/timeline";
import type { LocatedObservation } from "../observation";

/** Gives the part whose replacement made an observation history. One that was replaced and changed nothing made none. */
export function replacedSince(
  { replaced, worked }: Timeline,
  board: Board,
  all: readonly LocatedObservation[],
): (one: Pick<LocatedObservation, "refs" | "net" | "finding" | "phase" | "look">) => string | undefined {
  if (worked.size === 0) return () => undefined;
  const inVain = new Set(
    all.flatMap(({ against }) =>
      (against ?? []).flatMap(({ ref, by }) => (by === "swap-same" ? ref.toUpperCase() : [])),
    ),
  );
  return ({ refs, net, finding, phase, look }) => {
    const onNet = finding && net !== undefined ? (board.nets.get(net)?.pins ?? []) : [];
    const done = look ? worked : replaced;
    return [...refs, ...onNet.map(({ ref }) => ref.toUpperCase())].find(
      (ref) => (done.get(ref) ?? 0) > phase && !inVain.has(ref),
    );
  };
}

/**
 * Gives the part that may have been what made a function fail: one of its circuits that was found wrong and then
 * replaced, or from the stage of proving on any that was replaced there. Whether the function has come back is
 * for the log to show.
 */
export function curedBy(
  all: readonly LocatedObservation[],
  { replaced }: Timeline,
  board: Board,
  stage: FrontMatter["stage"],
): (one: LocatedObservation) => string | undefined {
  const late = stage === "proving" || stage === "returned";
  const accused = new Set(
    all.flatMap(({ finding, refs, phase }) =>
      finding ? refs.filter((ref) => (replaced.get(ref) ?? 0) > phase) : [],
    ),
  );
  return ({ finding, phase }) => {
    if (finding?.kind !== "symptom") return undefined;
    const inside = partsOf(finding.circuits, board, late);
    return [...replaced.keys()].find(
      (ref) => (replaced.get(ref) ?? 0) > phase && inside.has(ref) && (late || accused.has(ref)),
    );
  };
}

/** Designators in the circuits and, where asked for, of those that share a signal net with them; in capitals. */
function partsOf(circuits: readonly string[], board: Board, beside: boolean): Set<string> {
  const index = boardIndex(board);
  const inside = new Set(
    [...board.parts.values()].flatMap(({ ref, circuit }) =>
      circuit !== undefined && circuits.includes(circuit) ? [ref.toUpperCase()] : [],
    ),
  );
  if (!beside) return inside;
  const wider = new Set(inside);
  for (const net of board.nets.values()) {
    if (index.isGround(net) || index.railOf(net) !== undefined) continue;
    const refs = net.pins.map(({ ref }) => ref.toUpperCase());
    if (refs.some((ref) => inside.has(ref))) for (const ref of refs) wider.add(ref);
  }
  return wider;
}
