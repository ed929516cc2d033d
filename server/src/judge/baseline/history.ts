import { memo } from "../../base/memo";
import type { Library } from "../../knowledge/library";
import type { Board } from "../../knowledge/types";
import type { LogSummary } from "../../log/summary";
import { placesOf } from "./places";
import type { BoardHistory, PlaceReading } from "./types";

/**
 * The jobs whose readings speak for boards of a type: those returned, each board once, the last time. A job that
 * another one names as the one it came back from is left out: what was missed may be among its readings. The last
 * returned comes first.
 */
export const returnedJobs = (summaries: Iterable<LogSummary>, board: string): LogSummary[] =>
  onceEach(summaries, board, ({ stage }) => stage === "returned");

/** The jobs whose log says that their board is known to work, by the same rules: returned or not. */
export const referenceJobs = (summaries: Iterable<LogSummary>, board: string): LogSummary[] =>
  onceEach(summaries, board, ({ reference }) => reference === true);

function onceEach(
  summaries: Iterable<LogSummary>,
  board: string,
  speaks: (job: LogSummary) => boolean,
): LogSummary[] {
  const all = [...summaries];
  const cameBack = new Set(all.flatMap(({ comebackOf }) => comebackOf ?? []));
  const jobs = all
    .filter((it) => it.board === board && speaks(it))
    .filter(({ job }) => job === undefined || !cameBack.has(job))
    .sort((a, b) => compare(dayOf(b), dayOf(a)) || compare(a.uri, b.uri));
  const seen = new Set<string>();
  return jobs.filter(({ serial }) => {
    const board = serial?.trim().toUpperCase();
    if (!board) return true;
    if (seen.has(board)) return false;
    seen.add(board);
    return true;
  });
}

const dayOf = ({ returned, received }: LogSummary): string => returned ?? received ?? "";

/** Not by locale: the order of jobs must not hang on the machine. */
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

export function boardHistory(jobs: readonly LogSummary[], board: Board, library: Library): BoardHistory {
  let at: Map<string, PlaceReading[]> | undefined;
  return {
    board,
    library,
    jobs,
    get at() {
      at ??= gather(jobs, board, library);
      return at;
    },
  };
}

function gather(jobs: readonly LogSummary[], board: Board, library: Library): Map<string, PlaceReading[]> {
  const at = new Map<string, PlaceReading[]>();
  for (const job of jobs) {
    for (const [key, reading] of keptPlaces(job, board, library)) {
      const readings = at.get(key);
      if (readings) readings.push(reading);
      else at.set(key, [reading]);
    }
  }
  return at;
}

const keptPlaces = memo(placesOf);
