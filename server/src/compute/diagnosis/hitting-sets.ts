// Minimal hitting sets of conflict sets. With parts as elements these are the minimal diagnoses (R. Reiter,
// "A theory of diagnosis from first principles", Artificial Intelligence 32, 1987; from memory).

import { finish, type Steps } from "../../base/steps";
import type { Result } from "../result";
import { compareNumbers, compareText, familyOf } from "./family";
import { setsByCost } from "./search-by-cost";
import { type Allowance, setsOfSize } from "./search-by-size";
import { setsGreedily } from "./search-greedily";

export interface HittingSetOptions {
  /** Sizes up to this one are listed in full, as far as the nodes allow; 3 where not given. */
  readonly maxSize?: number;
  /** Nodes the listing by size may visit, and the branches of the search beyond it; 5,000 where not given. */
  readonly maxNodes?: number;
  /** Sets listed at most by size; 20,000 where not given. */
  readonly maxSets?: number;
  /** Sets looked for beyond the listing; 50 where not given, 0 for none. */
  readonly beyond?: number;
  /** Zero or more; the search beyond the listing gives cheaper sets first. All alike where not given. */
  readonly cost?: (element: string) => number;
}

export interface HittingSets {
  readonly ok: true;
  /** Each in the order of its element names; smaller sets first, then by name. */
  readonly sets: readonly (readonly string[])[];
  /** Every minimal hitting set of at most this size is listed; infinity where all are. */
  readonly completeUpTo: number;
  readonly nodes: number;
  /** What ended the search: nothing left, the size asked for, nodes or number of sets. */
  readonly stopped: "exhausted" | "size" | "nodes" | "sets";
  /** The bound as a sentence. */
  readonly statement: string;
}

/**
 * The minimal hitting sets of `conflicts`. No conflict at all gives the one empty set. Refused: an empty conflict,
 * which nothing can hit, a size, number of nodes or cost that is not a number of zero or more.
 */
export const hittingSets = (
  conflicts: readonly (readonly string[])[],
  options: HittingSetOptions = {},
): Result<HittingSets> => finish(hittingSetSteps(conflicts, options));

/** The same in steps. */
export function* hittingSetSteps(
  conflicts: readonly (readonly string[])[],
  options: HittingSetOptions = {},
): Steps<Result<HittingSets>> {
  const { maxSize = 3, maxNodes = 5_000, maxSets = 20_000, beyond = 50, cost = () => 1 } = options;
  const empty = conflicts.findIndex((set) => set.length === 0);
  if (empty >= 0) {
    return {
      ok: false,
      reason: `Conflict ${empty + 1} of ${conflicts.length} is empty: nothing can explain it.`,
    };
  }
  for (const [name, value] of Object.entries({ maxSize, maxNodes, maxSets, beyond })) {
    if (!(value >= 0)) return { ok: false, reason: `${name} must be zero or more, but it is ${value}.` };
  }
  const family = yield* familyOf(conflicts, cost);
  const wrong = family.costs.findIndex((value) => !(value >= 0 && Number.isFinite(value)));
  if (wrong >= 0) {
    const [name, value] = [family.names[wrong], family.costs[wrong]];
    return {
      ok: false,
      reason: `The cost of ${name} must be a finite number of zero or more, but it is ${value}.`,
    };
  }
  const allowance: Allowance = { nodes: 0, maxNodes, maxSets };
  const found: number[][] = family.conflicts.length === 0 ? [[]] : [];
  let completeUpTo = family.conflicts.length === 0 ? Number.POSITIVE_INFINITY : 0;
  while (completeUpTo < maxSize && !allowance.stopped) {
    const larger = yield* setsOfSize(family, completeUpTo + 1, allowance, found);
    if (!allowance.stopped) completeUpTo = larger ? completeUpTo + 1 : Number.POSITIVE_INFINITY;
  }
  let stopped: HittingSets["stopped"] = allowance.stopped ?? "size";
  let { nodes } = allowance;
  if (completeUpTo < Number.POSITIVE_INFINITY && beyond > 0) {
    const more: Allowance = { nodes: 0, maxNodes, maxSets };
    if (yield* setsByCost(family, completeUpTo, beyond, more, found)) completeUpTo = Number.POSITIVE_INFINITY;
    nodes += more.nodes;
    stopped = more.stopped ?? stopped;
  }
  if (completeUpTo === Number.POSITIVE_INFINITY) stopped = "exhausted";
  yield;
  const greedy = found.length === 0 && stopped === "nodes" && beyond > 0 ? yield* setsGreedily(family) : [];
  found.push(...greedy.slice(0, beyond));
  yield;
  const sets = [...new Map(found.map((set) => [set.join(), set])).values()]
    .sort((a, b) => a.length - b.length || compareNumbers(a, b))
    .map((set) => set.map((element) => family.names[element]!).sort(compareText))
    .map((set) => ({ set, text: set.join("\n") }))
    .sort((a, b) => a.set.length - b.set.length || compareText(a.text, b.text))
    .map(({ set }) => set);
  const end = greedy.length > 0 ? `${GREEDY}; ` : "";
  return {
    ok: true,
    sets,
    completeUpTo,
    nodes,
    stopped,
    statement: end + statement(completeUpTo, stopped, nodes),
  };
}

const GREEDY =
  "The findings have little to do with each other, so these were put together one cause at a time";

function statement(completeUpTo: number, stopped: HittingSets["stopped"], nodes: number): string {
  if (completeUpTo === Number.POSITIVE_INFINITY) return "Complete: every smallest explanation is listed.";
  const faults = completeUpTo === 1 ? "1 fault" : `${completeUpTo} faults`;
  const complete = completeUpTo === 0 ? "Not complete" : `Complete up to ${faults}`;
  const end = {
    exhausted: "",
    size: "larger explanations were not looked for",
    nodes: `stopped after ${nodes} steps`,
    sets: `beyond that the likeliest were taken, and more exist; stopped after ${nodes} steps`,
  }[stopped];
  return `${complete}; ${end}.`;
}
