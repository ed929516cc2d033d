// Explanations with a cause more than the smallest ones. A smallest explanation may account for a finding only as a
// distant neighbour of it; then two causes, each at home in its own finding, are often the likelier story.
import type { Steps } from "../../base/steps";
import type { Conflict } from "./conflict";
import { isRepair, type Suspect } from "./suspects";

/** Below this probability a finding counts as hardly explained. */
const HARDLY = 0.3;
/** Sets that are widened, causes tried for each finding, and rounds: what the bench waits for stays short. */
const WIDENED = 20;
const TRIED = 4;
const ROUNDS = 2;
/** Sets rated between two steps. */
export const SETS_A_STEP = 50;
/** A wider set this much less likely than the one it widens is not listed. */
const LEAST_RATIO = 1 / 20;

type SuspectSet = readonly Suspect[];

/**
 * Sets that add to one of the likeliest a cause for a finding it hardly explains, none of them among `sets`.
 * @param score logarithm of a set's weight
 * @param own logarithm of a suspect's own part in it
 */
export function* widerSets(
  sets: readonly SuspectSet[],
  conflicts: readonly Conflict[],
  score: (set: SuspectSet) => number,
  own: (suspect: Suspect) => number,
): Steps<SuspectSet[]> {
  const known = new Set(sets.map(keyOf));
  const found: SuspectSet[] = [];
  const causes = conflicts.map(({ members }) =>
    members
      .filter(({ suspect, weight }) => isRepair(suspect) && weight >= HARDLY)
      .map(({ suspect, weight }) => ({ suspect, rank: own(suspect) + Math.log(weight) }))
      .sort((a, b) => b.rank - a.rank || (a.suspect.id < b.suspect.id ? -1 : 1))
      .slice(0, TRIED)
      .map(({ suspect }) => suspect),
  );
  const weights = conflicts.map(
    ({ members }) => new Map(members.map(({ suspect, weight }) => [suspect.id, weight])),
  );
  let rated: { set: SuspectSet; score: number }[] = [];
  for (const [i, set] of sets.entries()) {
    if (i % SETS_A_STEP === 0) yield;
    rated.push({ set, score: score(set) });
  }
  for (let round = 0; round < ROUNDS; round += 1) {
    const best = rated.sort((a, b) => b.score - a.score).slice(0, WIDENED);
    rated = [];
    for (const { set, score: before } of best) {
      yield;
      for (const [c, weight] of weights.entries()) {
        const missed = set.reduce((rest, { id }) => rest * (1 - (weight.get(id) ?? 0)), 1);
        if (1 - missed >= HARDLY) continue;
        for (const cause of causes[c] ?? []) {
          const wider = [...set, cause];
          const key = keyOf(wider);
          if (known.has(key) || set.includes(cause)) continue;
          known.add(key);
          const after = score(wider);
          if (after < before + Math.log(LEAST_RATIO)) continue;
          rated.push({ set: wider, score: after });
          found.push(wider);
        }
      }
    }
  }
  return found;
}

const keyOf = (set: SuspectSet): string =>
  set
    .map(({ id }) => id)
    .sort()
    .join("\n");
