// A maximum matching of a graph whose edges run between two sides, by augmenting paths (Kuhn, 1955; Berge's theorem
// says that no path left means no larger matching; from memory). At 32 lines a side it takes well under a
// millisecond, so the quicker Hopcroft-Karp, or a library for it, would buy nothing and could not be told which edges
// to prefer.

/** Neighbours of each left vertex, by index, the preferred first. Right vertices are numbers from 0. */
export type Neighbours = readonly (readonly number[])[];

/**
 * The right vertex of each left one, undefined where it stays alone. `seed` is a matching to begin with: whatever
 * of it is a matching of the graph's edges is kept as far as the largest size allows.
 */
export function maximumMatching(
  neighbours: Neighbours,
  seed: readonly (readonly [left: number, right: number])[] = [],
): readonly (number | undefined)[] {
  const ofLeft: (number | undefined)[] = neighbours.map(() => undefined);
  const ofRight = new Map<number, number>();
  const join = (left: number, right: number): void => {
    ofLeft[left] = right;
    ofRight.set(right, left);
  };
  for (const [left, right] of seed) {
    const free = left in ofLeft && ofLeft[left] === undefined && !ofRight.has(right);
    if (free && neighbours[left]?.includes(right)) join(left, right);
  }
  const augment = (left: number, seen: Set<number>): boolean => {
    const unseen = (neighbours[left] ?? []).filter((right) => !seen.has(right));
    // A free neighbour first: it disturbs none of the pairs made so far.
    const free = unseen.find((right) => !ofRight.has(right));
    if (free !== undefined) {
      join(left, free);
      return true;
    }
    for (const right of unseen) {
      if (seen.has(right)) continue;
      seen.add(right);
      if (augment(ofRight.get(right)!, seen)) {
        join(left, right);
        return true;
      }
    }
    return false;
  };
  for (const left of neighbours.keys()) {
    if (ofLeft[left] === undefined) augment(left, new Set());
  }
  return ofLeft;
}

/** A smallest set of vertices that touches every edge: König's theorem, from memory. */
export function minimumVertexCover(neighbours: Neighbours): {
  readonly left: ReadonlySet<number>;
  readonly right: ReadonlySet<number>;
} {
  const ofLeft = maximumMatching(neighbours);
  const ofRight = new Map(ofLeft.flatMap((right, left) => (right === undefined ? [] : [[right, left]])));
  const reachedLeft = new Set<number>();
  const reachedRight = new Set<number>();
  const waiting = [...neighbours.keys()].filter((left) => ofLeft[left] === undefined);
  for (let left = waiting.pop(); left !== undefined; left = waiting.pop()) {
    if (reachedLeft.has(left)) continue;
    reachedLeft.add(left);
    for (const right of neighbours[left] ?? []) {
      if (reachedRight.has(right)) continue;
      reachedRight.add(right);
      const next = ofRight.get(right);
      if (next !== undefined) waiting.push(next);
    }
  }
  // An unreached left vertex without an edge needs no covering; it is never matched.
  const left = [...neighbours.keys()].filter((at) => ofLeft[at] !== undefined && !reachedLeft.has(at));
  return { left: new Set(left), right: reachedRight };
}
