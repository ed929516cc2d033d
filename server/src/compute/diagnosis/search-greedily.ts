// Some minimal hitting sets where the searches ran out of nodes before they met any: twenty findings that have nothing
// to do with each other have no small explanation, and the bench still wants to know where to begin.

import type { Steps } from "../../base/steps";
import { type Bits, clearBit, hasBit, noBits, setBit } from "./bits";
import type { SuspectSets } from "./family";
import { pop, push } from "./heap";

/** Elements chosen between two steps. */
const PICKS_A_STEP = 8;
/** Elements that a set is put together without: the dearest, which are the most in doubt. */
const MOST_VARIED = 12;

/**
 * One set put together element by element, always the cheapest for what it hits again, and for the dearest of its elements
 * the one put together without it. All are minimal; cheaper ones may exist.
 */
export function* setsGreedily(family: SuspectSets): Steps<number[][]> {
  const forbidden = noBits(family.names.length);
  const prices = pricesOf(family);
  yield;
  const first = yield* greedily(family, prices, forbidden);
  if (!first) return [];
  const found = [first];
  const dearest = [...first].sort((a, b) => family.costs[b]! - family.costs[a]! || a - b);
  for (const element of dearest.slice(0, MOST_VARIED)) {
    yield;
    setBit(forbidden, element);
    const other = yield* greedily(family, prices, forbidden);
    if (other) found.push(other);
    clearBit(forbidden, element);
  }
  return found;
}

interface Priced {
  readonly element: number;
  readonly price: number;
}

const before = (a: Priced, b: Priced): boolean =>
  a.price !== b.price ? a.price < b.price : a.element < b.element;

/** How many conflicts each element hits, and the elements by their cost for each, cheapest first. */
function pricesOf({ conflicts, costs, names }: SuspectSets): {
  gain: Uint32Array;
  sorted: readonly Priced[];
} {
  const gain = new Uint32Array(names.length);
  for (const conflict of conflicts) for (const element of conflict) gain[element]! += 1;
  const sorted = names
    .map((_, element) => ({ element, price: costs[element]! / gain[element]! }))
    .sort((a, b) => a.price - b.price || a.element - b.element);
  return { gain, sorted };
}

/** Ascending; undefined where a conflict holds nothing but what is forbidden. */
function* greedily(
  family: SuspectSets,
  prices: ReturnType<typeof pricesOf>,
  forbidden: Bits,
): Steps<number[] | undefined> {
  const { conflicts, hits, costs } = family;
  const { sorted } = prices;
  const chosen: number[] = [];
  /** By element: how many conflicts it hits that nothing chosen does. */
  const gain = prices.gain.slice();
  /** By conflict: how many chosen elements hit it. */
  const hitBy = new Uint32Array(conflicts.length);
  const cover = (element: number): number => {
    let fresh = 0;
    for (let c = 0; c < conflicts.length; c += 1) {
      if (!hasBit(hits[element]!, c)) continue;
      hitBy[c]! += 1;
      if (hitBy[c]! > 1) continue;
      fresh += 1;
      for (const other of conflicts[c]!) gain[other]! -= 1;
    }
    return fresh;
  };
  // Prices only rise: what was cheapest by its old price is priced again, and is taken where it still is.
  const risen: Priced[] = [];
  let next = 0;
  const cheapest = (): number | undefined => {
    for (;;) {
      const fresh = sorted[next];
      const [again] = risen;
      const one = fresh && !(again && before(again, fresh)) ? sorted[next++] : pop(risen, before);
      if (!one) return undefined;
      const { element } = one;
      if (gain[element] === 0 || hasBit(forbidden, element)) continue;
      const price = costs[element]! / gain[element]!;
      if (price === one.price) return element;
      push(risen, { element, price }, before);
    }
  };
  for (let left = conflicts.length; left > 0; ) {
    if (chosen.length % PICKS_A_STEP === PICKS_A_STEP - 1) yield;
    const best = cheapest();
    if (best === undefined) return undefined;
    chosen.push(best);
    left -= cover(best);
  }
  // What was chosen early may have become needless; the dearest goes first.
  const kept = new Set(chosen);
  for (const element of [...chosen].sort((a, b) => costs[b]! - costs[a]! || b - a)) {
    const own = conflicts.flatMap((_, c) => (hasBit(hits[element]!, c) ? c : []));
    if (own.some((c) => hitBy[c] === 1)) continue;
    for (const c of own) hitBy[c]! -= 1;
    kept.delete(element);
  }
  return [...kept].sort((a, b) => a - b);
}
