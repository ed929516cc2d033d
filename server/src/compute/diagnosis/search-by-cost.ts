// Minimal hitting sets in the order of their cost, for families too large to be listed size by size.
import type { Steps } from "../../base/steps";
import { and, type Bits, hasBit, isEmpty, minus, noBits, setBit } from "./bits";
import { compareNumbers, leastCost, licences, type SuspectSets } from "./family";
import { pop, push } from "./heap";
import { type Allowance, NODES_A_STEP, spend } from "./search-by-size";

interface Node {
  readonly cost: number;
  /** Cost so far plus the least that is still needed: never more than the true cost. */
  readonly bound: number;
  readonly chosen: readonly number[];
  readonly own: readonly Bits[];
  readonly uncovered: Bits;
  readonly forbidden: Bits;
}

const before = (a: Node, b: Node): boolean =>
  a.bound !== b.bound ? a.bound < b.bound : compareNumbers(a.chosen, b.chosen) < 0;

/**
 * Adds minimal hitting sets of more than `above` elements to `out`, cheapest first, until `most` were found or the
 * allowance is spent. True where all there are were found.
 */
export function* setsByCost(
  family: SuspectSets,
  above: number,
  most: number,
  allowance: Allowance,
  out: number[][],
): Steps<boolean> {
  const heap: Node[] = [];
  let found = 0;
  const root = nodeOf(family, [], [], family.all, noBits(family.names.length), 0);
  if (root) push(heap, root, before);
  for (;;) {
    const node = pop(heap, before);
    if (!node) return true;
    if (isEmpty(node.uncovered)) {
      if (node.chosen.length <= above) continue;
      out.push([...node.chosen].sort((a, b) => a - b));
      found += 1;
      if (found >= most) {
        if (heap.length > 0) allowance.stopped = "sets";
        return heap.length === 0;
      }
      continue;
    }
    const forbidden = node.forbidden.slice();
    for (const element of branchOf(family, node.uncovered, forbidden)) {
      // Every branch counts: a conflict may have hundreds, and each has its bound worked out.
      if (!spend(allowance)) return false;
      if (allowance.nodes % NODES_A_STEP === 0) yield;
      const hit = family.hits[element]!;
      const left = licences(node.own, hit);
      if (left) {
        const child = nodeOf(
          family,
          [...node.chosen, element],
          [...left, and(node.uncovered, hit)],
          minus(node.uncovered, hit),
          forbidden.slice(),
          node.cost + family.costs[element]!,
        );
        if (child) push(heap, child, before);
      }
      setBit(forbidden, element);
    }
  }
}

/** A node with its bound; undefined where a conflict can no longer be hit. */
function nodeOf(
  family: SuspectSets,
  chosen: readonly number[],
  own: readonly Bits[],
  uncovered: Bits,
  forbidden: Bits,
  cost: number,
): Node | undefined {
  const least = leastCost(family, uncovered, forbidden, family.costs);
  return least === undefined ? undefined : { cost, bound: cost + least, chosen, own, uncovered, forbidden };
}

/** Elements of the uncovered conflict with the fewest left. */
function branchOf(family: SuspectSets, uncovered: Bits, forbidden: Bits): number[] {
  let fewest: number[] | undefined;
  for (let c = 0; c < family.conflicts.length; c += 1) {
    if (!hasBit(uncovered, c)) continue;
    const left = family.conflicts[c]!.filter((element) => !hasBit(forbidden, element));
    if (!fewest || left.length < fewest.length) fewest = left;
  }
  return fewest ?? [];
}
