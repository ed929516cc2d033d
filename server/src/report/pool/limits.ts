// Limits from the exports of several shops: the rules that make a shop's own, over the boards of all of them.
import { baselineLimits } from "../../judge/baseline/limits";
import { type BaselineReading, MOST_BOARDS } from "../../judge/baseline/types";
import { groupBy, sortedBy } from "../../review/numbers/order";
import type { ExportRow } from "../export/schema";

/** One shop's tables. */
export interface ShopExport {
  /** Its name, another for each. */
  readonly shop: string;
  readonly jobs: readonly ExportRow<"jobs">[];
  readonly places: readonly ExportRow<"places">[];
}

/** What `*.limits.yaml` has of a place. Values in `unit`, SI base. */
export interface PooledRow {
  readonly board: string;
  readonly revision: string | null;
  readonly procedure: string;
  readonly measure: string;
  readonly load: string | null;
  readonly place: string;
  readonly low: number | null;
  readonly middle: number;
  readonly high: number | null;
  readonly unit: string;
  readonly boards: number;
  readonly leftOut: number;
  readonly shops: number;
}

interface PooledReading extends BaselineReading {
  readonly shop: string;
  readonly board: string;
  readonly at: ExportRow<"places">;
}

/**
 * Of all revisions and of each by itself, wherever at least five boards agree. A board counts once, with the last job that
 * returned it and that no later one names as what it came back from; of each revision the 200 returned last count.
 */
export function pooledLimits(exports: readonly ShopExport[]): PooledRow[] {
  const rows: PooledRow[] = [];
  const jobs = latestOf(exports.flatMap(({ shop, jobs: of }) => speaking(of).map((job) => ({ shop, job }))));
  const known = new Map(jobs.map(({ shop, job }) => [keyOf(shop, job.log_no), job]));
  const readings = exports.flatMap(({ shop, places }) =>
    places.flatMap((at): PooledReading[] => {
      const job = known.get(keyOf(shop, at.log_no));
      return job?.board ? [readingOf(shop, job, job.board, at)] : [];
    }),
  );
  const places = groupBy(readings, ({ board, at }) =>
    JSON.stringify([board, at.procedure, at.measure, at.load, at.place]),
  );
  for (const of of places.values()) {
    rows.push(...rowOf(null, of));
    const revisions = groupBy(
      of.filter(({ revision }) => revision !== undefined),
      ({ revision }) => revision!,
    );
    for (const [revision, own] of revisions) rows.push(...rowOf(revision, own));
  }
  return sortedBy(
    rows,
    ({ board }) => board,
    ({ procedure }) => procedure,
    ({ measure }) => measure,
    ({ load }) => load,
    ({ place }) => place,
    ({ revision }) => revision,
  );
}

const keyOf = (shop: string, log: number): string => JSON.stringify([shop, log]);

const dayOf = ({ returned_day, received_day }: ExportRow<"jobs">): number =>
  returned_day ?? received_day ?? Number.NEGATIVE_INFINITY;

/** Of one shop, the last returned first. */
function speaking(jobs: readonly ExportRow<"jobs">[]): ExportRow<"jobs">[] {
  const cameBack = new Set(jobs.flatMap(({ comeback_of }) => comeback_of ?? []));
  const returned = jobs.filter(
    ({ stage, board, job }) => stage === "returned" && board !== null && (job === null || !cameBack.has(job)),
  );
  const seen = new Set<number>();
  return newestFirst(returned, (job) => job).filter(({ unit }) => {
    if (seen.has(unit)) return false;
    seen.add(unit);
    return true;
  });
}

const newestFirst = <T>(rows: readonly T[], jobOf: (row: T) => ExportRow<"jobs">): T[] =>
  sortedBy(
    rows,
    (row) => -dayOf(jobOf(row)),
    (row) => jobOf(row).log_no,
  );

function latestOf<T extends { readonly job: ExportRow<"jobs"> }>(all: readonly T[]): T[] {
  const counted = new Map<string, number>();
  return newestFirst(all, ({ job }) => job).filter(({ job: { board, revision } }) => {
    const key = JSON.stringify([board, revision]);
    const count = counted.get(key) ?? 0;
    counted.set(key, count + 1);
    return count < MOST_BOARDS;
  });
}

const readingOf = (
  shop: string,
  job: ExportRow<"jobs">,
  board: string,
  at: ExportRow<"places">,
): PooledReading => ({
  shop,
  board,
  at,
  uri: keyOf(shop, job.log_no),
  job: job.job ?? String(job.log_no),
  ...(job.revision === null ? {} : { revision: job.revision }),
  value: at.read_value ?? Number.POSITIVE_INFINITY,
  resolution: at.resolution,
  unit: at.unit,
});

function rowOf(revision: string | null, readings: readonly PooledReading[]): PooledRow[] {
  const limits = baselineLimits(readings);
  const [first] = readings;
  // A place that every board reads as a short, in words, has no unit to be compared in.
  if (!limits.ok || !first || limits.value.unit === "") return [];
  const { n, centre, low, high, unit, jobs, leftOut } = limits.value;
  const kept = new Set(jobs.map(({ uri }) => uri));
  const { procedure, measure, load, place } = first.at;
  return [
    {
      board: first.board,
      revision,
      procedure,
      measure,
      load,
      place,
      low: low ?? null,
      middle: centre,
      high: high ?? null,
      unit,
      boards: n,
      leftOut: leftOut.length,
      shops: new Set(readings.filter(({ uri }) => kept.has(uri)).map(({ shop }) => shop)).size,
    },
  ];
}
