// What draws down a rail draws on all that feeds it: the ripple before a regulator that feeds a short is the short's.
import type { BoardModel } from "./board-model";
import { type Conflict, type Member, membersOf } from "./conflict";
import type { DiagnosisFinding } from "./types";

/** Of what takes a rail to ground, for the ripple or the sag of a rail that feeds it. Common practice, no source. */
const LOADED = 0.6;

const isShort = (finding: DiagnosisFinding | undefined): boolean =>
  finding?.kind === "sign" && (finding.sign === "rail-short" || finding.sign === "short-nearest");

/** A conflict of a rail that rises and falls too far, or is low, with what shorts the rails that it feeds. */
export function loadedByShorts(model: BoardModel, conflict: Conflict, all: readonly Conflict[]): Conflict {
  const [finding] = conflict.findings;
  if (finding?.kind !== "sign" || finding.rail === undefined) return conflict;
  if (finding.sign !== "ripple" && !(finding.sign === "rail-wrong" && finding.state === "low"))
    return conflict;
  const { rail } = finding;
  const more = all.flatMap(({ findings: [other], members }): Member[] =>
    other?.kind === "sign" && isShort(other) && isFedFrom(model, other.rail, rail)
      ? members.flatMap(({ suspect, weight }) =>
          suspect.kind === "part" || suspect.kind === "track" ? [{ suspect, weight: weight * LOADED }] : [],
        )
      : [],
  );
  return more.length === 0 ? conflict : { ...conflict, members: membersOf(conflict.members, more) };
}

/** One of the rails that the other is made from, however far before it. */
function isFedFrom({ board }: BoardModel, rail: string | undefined, from: string): boolean {
  const seen = new Set<string>();
  for (let at = rail; at !== undefined && !seen.has(at); ) {
    seen.add(at);
    at = board.rails.get(at)?.input;
    if (at === from) return true;
  }
  return false;
}
