// What was recorded of a matrix, sorted by crossing.
import type { Result } from "../result";
import { badShape, type Crossing, cellOf, crossingKey, keysOf, type MatrixShape } from "./shape";

/** What was seen when a crossing was closed, or said of it. */
export type CellResult =
  /** Stuck: answers with nothing closed. Intermittent: answered once and another time not. */
  | { readonly state: "works" | "dead" | "stuck" | "intermittent" }
  /** Closing this crossing showed others; `own` tells whether it showed itself as well. */
  | { readonly state: "closes-others"; readonly others: readonly Crossing[]; readonly own: boolean };

/** One closure of one crossing, everything else open. Crossings not tested are left out. */
export interface Recorded extends Crossing {
  readonly result: CellResult;
}

/** Several crossings held closed at once, and every crossing that was then shown. */
export interface HeldTogether {
  readonly closed: readonly Crossing[];
  readonly seen: readonly Crossing[];
}

/** Sets of keys (see `keyOf`). Reserved crossings are in none but `reservedExercised`. */
export interface Results {
  readonly works: ReadonlySet<number>;
  readonly dead: ReadonlySet<number>;
  readonly stuck: ReadonlySet<number>;
  /** Said so, or recorded twice with different results. */
  readonly intermittent: ReadonlySet<number>;
  /** What else was shown, by the crossing closed, stuck crossings left out: they show always. */
  readonly others: ReadonlyMap<number, ReadonlySet<number>>;
  /** Crossings that showed themselves when closed, alone or among others, at least once. */
  readonly answered: ReadonlySet<number>;
  readonly tested: ReadonlySet<number>;
  /** Recorded although reserved, for the caller to warn of; not used as evidence. */
  readonly reservedExercised: readonly Crossing[];
}

/** Sorts what was recorded. Refuses crossings outside the matrix. */
export function sortResults(
  shape: MatrixShape,
  recorded: readonly Recorded[],
): Result<{ readonly ok: true; readonly results: Results }> {
  const shown = recorded.flatMap(({ result }) => (result.state === "closes-others" ? result.others : []));
  const bad = badShape(shape, [...recorded, ...shown]);
  if (bad) return bad;
  const reserved = keysOf(shape.reserved);
  const byCell = new Map<number, CellResult[]>();
  const exercised = new Set<number>();
  for (const { result, ...cell } of recorded) {
    const key = crossingKey(cell);
    if (reserved.has(key)) exercised.add(key);
    else byCell.set(key, [...(byCell.get(key) ?? []), result]);
  }
  const sets = {
    works: new Set<number>(),
    dead: new Set<number>(),
    stuck: new Set<number>(),
    intermittent: new Set<number>(),
    "closes-others": new Set<number>(),
  };
  const answered = new Set<number>();
  for (const [key, results] of byCell) {
    const states = new Set(results.map(({ state }) => state));
    const [state] = states;
    // Working, once with a look at what else shows and once without, is no contradiction.
    const alive = !states.has("dead") && !states.has("stuck") && !states.has("intermittent");
    if (states.size === 1 && state) sets[state].add(key);
    else sets[alive ? "closes-others" : "intermittent"].add(key);
    if (
      results.some((result) => result.state === "works" || (result.state === "closes-others" && result.own))
    ) {
      answered.add(key);
    }
  }
  const others = new Map<number, ReadonlySet<number>>();
  for (const key of sets["closes-others"]) {
    const seen = (byCell.get(key) ?? []).flatMap((result) =>
      result.state === "closes-others" ? result.others.map(crossingKey) : [],
    );
    others.set(key, new Set(seen.filter((other) => other !== key && !sets.stuck.has(other))));
  }
  return {
    ok: true,
    results: {
      works: sets.works,
      dead: sets.dead,
      stuck: sets.stuck,
      intermittent: sets.intermittent,
      others,
      answered,
      tested: new Set(byCell.keys()),
      reservedExercised: [...exercised].sort((a, b) => a - b).map(cellOf),
    },
  };
}
