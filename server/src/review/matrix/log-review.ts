// What a log's matrix tables say, repair by repair, with the places to say it at.

import { memo, memoEach } from "../../base/memo";
import { type Proving, provingPlan } from "../../compute/matrix/proving";
import type { HeldTogether, Recorded } from "../../compute/matrix/results";
import { type MatrixReview, reviewMatrix } from "../../compute/matrix/review";
import { type Crossing, crossingKey, type MatrixLine } from "../../compute/matrix/shape";
import { boardIndex } from "../../knowledge/board-index";
import type { Board } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import type { LogTable } from "../../log/model";
import { latestOf } from "../../log/timeline/latest";
import { type Span, shift } from "../../text/span";
import { type LocatedResults, type MatrixEntry, type MatrixLog, matrixLogs } from "./from-log";

/** A matrix by the tables between two repairs, numbered by the repairs before them from 0. */
export interface PhaseReview {
  readonly log: MatrixLog;
  readonly phase: number;
  readonly tables: readonly LocatedResults[];
  readonly review: MatrixReview;
  /** True where a crossing on the line works after a later repair, so that its fault is history. */
  readonly cured: (line: MatrixLine) => boolean;
  readonly curedCell: (cell: Crossing) => boolean;
}

/** One review for each matrix and each state of repair that has results. */
export const matrixReviews = memo((doc: LogDocument, board: Board): readonly PhaseReview[] =>
  matrixLogs(doc, board).flatMap(reviewsOf),
);

/**
 * Computed again only where one of the tables changed, or what else the key tells; most edits change none. Each last
 * table has a place for what was computed from it and those before it.
 */
function remembering<T>() {
  interface Kept {
    readonly tables: readonly LogTable[];
    readonly about: object;
    readonly value: T;
  }
  const placeOf = memoEach((_last: LogTable, _key: string): { kept?: Kept } => ({}));
  return (placed: readonly LocatedResults[], about: object, key: string, compute: () => T): T => {
    const last = placed.at(-1)?.table;
    const place = last && placeOf(last, key);
    const known = place?.kept;
    if (
      known?.about === about &&
      known.tables.length === placed.length &&
      placed.every(({ table }, i) => table === known.tables[i])
    )
      return known.value;
    const value = compute();
    if (place) place.kept = { tables: placed.map(({ table }) => table), about, value };
    return value;
  };
}

/** What the results of one state of repair say, and the crossings that work after a later one. */
interface PhaseFacts {
  readonly some: boolean;
  readonly review: ReturnType<typeof reviewMatrix>;
  readonly later: readonly Recorded[];
}

const factsOnce = remembering<PhaseFacts>();
const planOnce = remembering<Proving | undefined>();

function reviewsOf(log: MatrixLog): readonly PhaseReview[] {
  const order = log.tables.map(({ phase }) => phase).join();
  const phases = [...new Set(log.tables.map(({ phase }) => phase))].sort((a, b) => a - b);
  return phases.flatMap((phase): PhaseReview[] => {
    const { some, review, later } = factsOnce(log.tables, log.shape, `${phase} of ${order}`, () =>
      factsOf(log, phase),
    );
    if (!review.ok || !some) return [];
    return [
      {
        log,
        phase,
        tables: log.tables.filter((table) => table.phase === phase),
        review,
        cured: ({ kind, number }) => later.some((cell) => cell[kind] === number),
        curedCell: (cell) => crossingsOf(later).has(crossingKey(cell)),
      },
    ];
  });
}

const crossingsOf = memo(
  (cells: readonly Recorded[]): ReadonlySet<number> => new Set(cells.map(crossingKey)),
);

function factsOf(log: MatrixLog, phase: number): PhaseFacts {
  const entries = log.tables.filter((table) => table.phase === phase).flatMap((table) => table.entries);
  return {
    some: entries.length > 0,
    review: reviewMatrix(log.shape, recordedIn(entries), heldIn(entries)),
    later: log.tables.filter((table) => table.phase > phase).flatMap(({ entries }) => workingIn(entries)),
  };
}

const workingIn = memo((entries: readonly MatrixEntry[]) =>
  recordedIn(entries).filter(({ result }) => result.state === "works"),
);

const recordedIn = (entries: readonly MatrixEntry[]): readonly Recorded[] =>
  entries.flatMap((entry) => ("recorded" in entry ? [entry.recorded] : []));

const heldIn = (entries: readonly MatrixEntry[]): readonly HeldTogether[] =>
  entries.flatMap((entry) => ("held" in entry ? [entry.held] : []));

/** Where a result of the crossing stands in the document; undefined where none was recorded. */
export function spanOfCell(tables: readonly LocatedResults[], cell: Crossing): Span | undefined {
  for (const { start, entries } of tables) {
    const entry = firstOfCells(entries).get(crossingKey(cell));
    if (entry) return shift(entry.reading.cell.span, start);
  }
  return undefined;
}

const firstOfCells = memo((entries: readonly MatrixEntry[]): ReadonlyMap<number, MatrixEntry> => {
  const first = new Map<number, MatrixEntry>();
  for (const entry of entries) {
    const key = "recorded" in entry ? crossingKey(entry.recorded) : undefined;
    if (key !== undefined && !first.has(key)) first.set(key, entry);
  }
  return first;
});

/** Where the crossing was shown while others were held closed. */
export function spanOfHeld(tables: readonly LocatedResults[], cell: Crossing): Span | undefined {
  return spanWhere(
    tables,
    (entry) => "held" in entry && entry.held.seen.some((at) => crossingKey(at) === crossingKey(cell)),
  );
}

function spanWhere(
  tables: readonly LocatedResults[],
  wanted: (entry: MatrixEntry) => boolean,
): Span | undefined {
  for (const { start, entries } of tables) {
    const entry = entries.find(wanted);
    if (entry) return shift(entry.reading.cell.span, start);
  }
  return undefined;
}

/** Where a line is named in a grid, else where the first of its results stands. */
export function spanOfLine(
  tables: readonly LocatedResults[],
  { kind, number }: MatrixLine,
): Span | undefined {
  for (const { start, entries } of tables) {
    const entry = entries.find((each) => "recorded" in each && each.recorded[kind] === number);
    if (!entry) continue;
    const { reading, table } = entry;
    const named = table.shape === "wide" ? reading.subject[kind] : undefined;
    return shift(named?.span ?? reading.cell.span, start);
  }
  return undefined;
}

/**
 * What is proven by the latest result at each crossing. Results from before a part on the line was replaced no longer
 * count for that line.
 */
export function provingOf(log: MatrixLog, board: Board): Proving | undefined {
  const key = [
    log.tables.map(({ phase }) => phase),
    [...log.replaced].map(([ref, repair]) => `${ref} ${repair}`),
  ].join("; ");
  return planOnce(log.tables, board, `${log.matrix.id} ${key}`, () => planFor(log, board));
}

function planFor(log: MatrixLog, board: Board): Proving | undefined {
  const all = log.tables.flatMap(({ phase, entries }) =>
    recordedIn(entries).map((recorded) => ({ phase, recorded })),
  );
  const latest = latestOf(
    all,
    ({ recorded }) => crossingKey(recorded),
    ({ phase }) => phase,
  );
  const since = repairedSince(log, board);
  const counted = latest.filter(
    ({ phase, recorded }) =>
      phase >= since({ kind: "row", number: recorded.row }) &&
      phase >= since({ kind: "column", number: recorded.column }),
  );
  const plan = provingPlan(
    log.shape,
    counted.map(({ recorded }) => recorded),
  );
  return plan.ok ? plan : undefined;
}

/** The number of the last repair that replaced a part on a line; 0 where none did. */
function repairedSince({ matrix, replaced }: MatrixLog, board: Board): (line: MatrixLine) => number {
  const repairs = new Map<string, number>();
  for (const [ref, repair] of replaced) {
    if (!boardIndex(board).part(ref)) continue;
    for (const name of [...matrix.rows, ...matrix.columns]) {
      if (board.nets.get(name)?.pins.some((pin) => pin.ref.toUpperCase() === ref))
        repairs.set(name, Math.max(repair, repairs.get(name) ?? 0));
    }
  }
  return ({ kind, number }) =>
    repairs.get((kind === "row" ? matrix.rows : matrix.columns)[number - 1] ?? "") ?? 0;
}
