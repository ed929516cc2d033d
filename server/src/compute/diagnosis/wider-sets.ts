// Explanations with a cause more than the smallest ones. A smallest explanation may account for a finding only as a
// distant neighbour of it; then two causes, each at home in its own finding, are often the likelier story.
import type { Steps } from "../../base/steps";
import type { Conflict } from "./conflict";
import type { Rated, Scorer } from "./score";
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

/** Conflicts whose causes are ranked between two steps: one may have hundreds. */
const CONFLICTS_A_STEP = 4;

/**
 * Sets that add to one of the likeliest a cause for a finding it hardly explains, none of them among `sets`.
 * @param own logarithm of a suspect's own part in a score
 */
export function* widerSets(
  sets: readonly Rated[],
  conflicts: readonly Conflict[],
  score: Scorer,
  own: (suspect: Suspect) => number,
): Steps<Rated[]> {
  const known = new Set(sets.map(({ set }) => keyOf(set)));
  const found: Rated[] = [];
  const causes: (readonly Suspect[])[] = [];
  for (const [c, { members }] of conflicts.entries()) {
    if (c % CONFLICTS_A_STEP === 0) yield;
    causes.push(
      members
        .filter(({ suspect, weight }) => isRepair(suspect) && weight >= HARDLY)
        .map(({ suspect, weight }) => ({ suspect, rank: own(suspect) + Math.log(weight) }))
        .sort((a, b) => b.rank - a.rank || (a.suspect.id < b.suspect.id ? -1 : 1))
        .slice(0, TRIED)
        .map(({ suspect }) => suspect),
    );
  }
  let rated: readonly Rated[] = sets;
  for (let round = 0; round < ROUNDS; round += 1) {
    const best = [...rated].sort((a, b) => b.score - a.score).slice(0, WIDENED);
    const next: Rated[] = [];
    for (const one of best) {
      yield;
      for (const [c, missed] of one.missed.entries()) {
        if (1 - missed >= HARDLY) continue;
        for (const cause of causes[c] ?? []) {
          if (one.set.includes(cause)) continue;
          if (score.withOneMore(one, cause) < one.score + Math.log(LEAST_RATIO)) continue;
          const wider = [...one.set, cause];
          const key = keyOf(wider);
          if (known.has(key)) continue;
          known.add(key);
          const after = score.rate(wider);
          next.push(after);
          found.push(after);
        }
      }
    }
    rated = next;
  }
  return found;
}

const keyOf = (set: readonly Suspect[]): string =>
  set
    .map(({ id }) => id)
    .sort()
    .join("\n");
