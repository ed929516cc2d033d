import { distance } from "fastest-levenshtein";

/**
 * The candidate nearest to what was typed, or undefined where none is near enough to be a slip of the key: at
 * most a third of the letters, two changes for short words. Swapped neighbours count as one change, and
 * the earlier candidate wins a tie.
 */
export function nearest(typed: string, candidates: Iterable<string>): string | undefined {
  if (typed === "") return undefined;
  const bound = Math.max(1, Math.min(3, Math.ceil(typed.length / 3)));
  let best: string | undefined;
  let bestDistance = bound + 1;
  for (const candidate of candidates) {
    const d = swapped(typed, candidate) ? 0.5 : distance(typed.toLowerCase(), candidate.toLowerCase());
    if (d < bestDistance) {
      best = candidate;
      bestDistance = d;
    }
  }
  return best;
}

/** True where the two differ by one swap of neighbouring letters. */
function swapped(a: string, b: string): boolean {
  if (a.length !== b.length) return false;
  const at = [...a].findIndex((letter, i) => letter !== b[i]);
  return at >= 0 && a[at] === b[at + 1] && a[at + 1] === b[at] && a.slice(at + 2) === b.slice(at + 2);
}
