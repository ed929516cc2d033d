// All that a matrix's recorded tests say, each fault named once: stuck crossings first, since they are closed in every
// later test, then shorted lines, then diodes, then what is dead.
import type { Result } from "../result";
import { type DeadReport, deadReport } from "./dead";
import { type PhantomReport, phantomReport } from "./phantoms";
import { type HeldTogether, type Recorded, type Results, sortResults } from "./results";
import { badShape, type Crossing, cellOf, crossingKey, type MatrixShape } from "./shape";
import { type ShortedPair, shortedPairs } from "./shorts";
import { type StuckReport, stuckReport } from "./stuck";

/** The faults that recorded tests show, kind by kind. */
export interface MatrixReview {
  readonly ok: true;
  readonly dead: DeadReport;
  readonly stuck: StuckReport;
  readonly shorts: readonly ShortedPair[];
  /** What the shorted pairs leave over. */
  readonly phantoms: PhantomReport;
  /** Recorded although reserved; not used. */
  readonly reservedExercised: readonly Crossing[];
}

/**
 * Reviews single closures (`recorded`) and several held at once (`held`). Refuses a matrix or a crossing that
 * cannot be. Every verdict is on what was recorded; crossings not tested stay undecided.
 */
export function reviewMatrix(
  shape: MatrixShape,
  recorded: readonly Recorded[],
  held: readonly HeldTogether[] = [],
): Result<MatrixReview> {
  const sorted = sortResults(shape, recorded);
  if (!sorted.ok) return sorted;
  const bad = badShape(
    shape,
    held.flatMap(({ closed, seen }) => [...closed, ...seen]),
  );
  if (bad) return bad;
  const { results } = sorted;
  const shorts = shortedPairs(shape, results);
  const sure = joinedBy(shorts.filter(({ verdict }) => verdict === "out-of-limits"));
  const any = joinedBy(shorts);
  const phantoms = phantomReport(shape, leftOver(results, sure, held));
  return {
    ok: true,
    dead: deadReport(shape, results),
    stuck: stuckReport(shape, results),
    shorts,
    phantoms: {
      ...phantoms,
      // Named already, with the pair that is only suspected.
      unexplained: phantoms.unexplained.filter(({ cell, closed }) => !closed.some((at) => any(at, cell))),
    },
    reservedExercised: results.reservedExercised,
  };
}

type Joined = (a: Crossing, b: Crossing) => boolean;

/** Every closure with the stuck crossings closed too, and what the shorted lines show taken away. */
function leftOver(results: Results, joined: Joined, held: readonly HeldTogether[]): readonly HeldTogether[] {
  const stuck = [...results.stuck].map(cellOf);
  // A plain "works" says nothing of what else was shown, so it clears no diode.
  const single = [...results.others].map(([key, others]) => ({
    closed: [cellOf(key)],
    seen: [...others].map(cellOf),
  }));
  return [...single, ...held].map(({ closed, seen }) => {
    const shut = [...closed, ...stuck];
    const known = new Set(shut.map(crossingKey));
    const isNews = (cell: Crossing): boolean =>
      known.has(crossingKey(cell)) || !shut.some((at) => joined(at, cell));
    return { closed: shut, seen: seen.filter(isNews) };
  });
}

/** Whether the pairs join the lines of two crossings, so that closing one closes the other. */
function joinedBy(pairs: readonly ShortedPair[]): Joined {
  const rows = groups(pairs.filter(({ kind }) => kind === "row"));
  const columns = groups(pairs.filter(({ kind }) => kind === "column"));
  return (a, b) => rows(a.row) === rows(b.row) && columns(a.column) === columns(b.column);
}

/** Which group of joined lines a line belongs to, named by its lowest number. */
function groups(pairs: readonly ShortedPair[]): (line: number) => number {
  const parent = new Map<number, number>();
  const find = (line: number): number => {
    const up = parent.get(line);
    return up === undefined ? line : find(up);
  };
  for (const { lines } of pairs) {
    const [low, high] = lines.map(find).sort((a, b) => a - b) as [number, number];
    if (low !== high) parent.set(high, low);
  }
  return find;
}
