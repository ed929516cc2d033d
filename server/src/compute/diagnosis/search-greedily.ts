// Some minimal hitting sets where the searches ran out of nodes before they met any: twenty findings that have nothing
// to do with each other have no small explanation, and the bench still wants to know where to begin.
import { type Bits, clearBit, hasBit, isEmpty, minus, noBits, setBit } from "./bits";
import type { Family } from "./family";

/**
 * One set put together element by element, always the cheapest for what it hits anew, and for each of its elements the
 * one put together without it. All are minimal; cheaper ones may exist.
 */
export function setsGreedily(family: Family): number[][] {
  const forbidden = noBits(family.names.length);
  const first = greedily(family, forbidden);
  if (!first) return [];
  const found = [first];
  for (const element of first) {
    setBit(forbidden, element);
    const other = greedily(family, forbidden);
    if (other) found.push(other);
    clearBit(forbidden, element);
  }
  return found;
}

/** Ascending; undefined where a conflict holds nothing but what is forbidden. */
function greedily(family: Family, forbidden: Bits): number[] | undefined {
  const chosen: number[] = [];
  let uncovered = family.all;
  while (!isEmpty(uncovered)) {
    let best: number | undefined;
    let least = Number.POSITIVE_INFINITY;
    for (let element = 0; element < family.names.length; element += 1) {
      if (hasBit(forbidden, element)) continue;
      const hit = countIn(family.hits[element]!, uncovered);
      const price = hit === 0 ? Number.POSITIVE_INFINITY : family.costs[element]! / hit;
      if (price < least) {
        best = element;
        least = price;
      }
    }
    if (best === undefined) return undefined;
    chosen.push(best);
    uncovered = minus(uncovered, family.hits[best]!);
  }
  // What was chosen early may have become needless; the dearest goes first.
  const kept = new Set(chosen);
  for (const element of [...chosen].sort((a, b) => family.costs[b]! - family.costs[a]! || b - a)) {
    const rest = [...kept].filter((other) => other !== element);
    const left = rest.reduce((bits, other) => minus(bits, family.hits[other]!), family.all);
    if (isEmpty(left)) kept.delete(element);
  }
  return [...kept].sort((a, b) => a - b);
}

function countIn(a: Bits, b: Bits): number {
  let count = 0;
  for (let i = 0; i < a.length; i += 1) {
    for (let word = a[i]! & b[i]!; word !== 0; word &= word - 1) count += 1;
  }
  return count;
}
