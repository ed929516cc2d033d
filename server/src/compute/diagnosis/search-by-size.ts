// Every minimal hitting set of one size, each exactly once.
import type { Steps } from "../../base/steps";
import { and, type Bits, clearBit, hasBit, isEmpty, minus, noBits, setBit, within } from "./bits";
import { leastCost, licences, type SuspectSets } from "./family";

/** What a search may spend; shared by all searches of one call. */
export interface Allowance {
  nodes: number;
  readonly maxNodes: number;
  readonly maxSets: number;
  stopped?: "nodes" | "sets";
}

/** Counts a node; false where the search has to end. */
export function spend(allowance: Allowance): boolean {
  if (allowance.stopped) return false;
  if (allowance.nodes >= allowance.maxNodes) allowance.stopped = "nodes";
  else allowance.nodes += 1;
  return allowance.stopped === undefined;
}

/** Nodes between two steps of a search: about half a millisecond's worth. */
export const NODES_A_STEP = 16;

/**
 * Adds the minimal hitting sets of exactly `size` elements to `out`. True where larger ones may exist.
 *
 * Branches over the elements of the conflict with the fewest left, and forbids each element to the branches after
 * its own, so that a set is met on one path only; a branch ends where a chosen element has become needless.
 */
export function* setsOfSize(
  family: SuspectSets,
  size: number,
  allowance: Allowance,
  out: number[][],
): Steps<boolean> {
  const { conflicts, hits } = family;
  const forbidden = noBits(family.names.length);
  /** By conflict: how many of its elements are still allowed. */
  const free = conflicts.map((set) => set.length);
  const chosen: number[] = [];
  let larger = false;

  const forbid = (element: number): void => {
    setBit(forbidden, element);
    for (let c = 0; c < conflicts.length; c += 1) if (hasBit(hits[element]!, c)) free[c]! -= 1;
  };
  const allow = (element: number): void => {
    clearBit(forbidden, element);
    for (let c = 0; c < conflicts.length; c += 1) if (hasBit(hits[element]!, c)) free[c]! += 1;
  };

  function* visit(uncovered: Bits, own: readonly Bits[]): Steps<void> {
    if (!spend(allowance)) return;
    if (allowance.nodes % NODES_A_STEP === 0) yield;
    const most = size - chosen.length;
    const least = leastCost(family, uncovered, forbidden, undefined, most);
    if (least === undefined) return;
    if (least > most) {
      larger = true;
      return;
    }
    let branch = -1;
    for (let c = 0; c < conflicts.length; c += 1) {
      if (hasBit(uncovered, c) && (branch < 0 || free[c]! < free[branch]!)) branch = c;
    }
    if (branch < 0) return;
    const last = chosen.length === size - 1;
    const tried: number[] = [];
    for (const element of conflicts[branch]!) {
      if (allowance.stopped) break;
      if (hasBit(forbidden, element)) continue;
      const hit = hits[element]!;
      const left = licences(own, hit);
      if (left) {
        if (within(uncovered, hit)) {
          if (last) {
            out.push([...chosen, element].sort((a, b) => a - b));
            if (out.length >= allowance.maxSets) allowance.stopped = "sets";
          }
        } else if (last) {
          larger = true;
        } else {
          chosen.push(element);
          yield* visit(minus(uncovered, hit), [...left, and(uncovered, hit)]);
          chosen.pop();
        }
      }
      forbid(element);
      tried.push(element);
    }
    for (const element of tried) allow(element);
  }

  if (!isEmpty(family.all)) yield* visit(family.all, []);
  return larger;
}
