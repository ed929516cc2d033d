import { memo } from "../../base/memo";
import type { Library } from "../../knowledge/library";
import type { Board } from "../../knowledge/types";
import { jobIndex, type Logs } from "../../log/job-index";
import type { LogSummary } from "../../log/summary";
import { placesOf } from "./places";
import { type BoardHistory, MOST_BOARDS, type PlaceReading } from "./types";

/**
 * The jobs whose readings speak for boards of a type: those returned, each board once, the last time. A job that
 * another one names as the one it came back from is left out: what was missed may be among its readings. The last
 * returned comes first; of each revision no more than `most` count.
 */
export const returnedJobs = (logs: Logs, board: string, most = MOST_BOARDS): LogSummary[] =>
  onceEach(logs, board, ({ stage }) => stage === "returned", most);

/** The jobs whose log says that their board is known to work, by the same rules: returned or not. */
export const referenceJobs = (logs: Logs, board: string): LogSummary[] =>
  onceEach(logs, board, ({ reference }) => reference === true, MOST_BOARDS);

function onceEach(
  logs: Logs,
  board: string,
  speaks: (job: LogSummary) => boolean,
  most: number,
): LogSummary[] {
  const { cameBack, ofBoard } = jobIndex(logs);
  const jobs = ofBoard(board)
    .filter((it) => speaks(it) && (it.job === undefined || !cameBack.has(it.job)))
    .sort((a, b) => compare(dayOf(b), dayOf(a)) || compare(a.uri, b.uri));
  const seen = new Set<string>();
  const counted = new Map<string | undefined, number>();
  return jobs.filter(({ serial, revision }) => {
    const count = counted.get(revision) ?? 0;
    if (count >= most) return false;
    const board = serial?.trim().toUpperCase();
    if (board && seen.has(board)) return false;
    if (board) seen.add(board);
    counted.set(revision, count + 1);
    return true;
  });
}

const dayOf = ({ returned, received }: LogSummary): string => returned ?? received ?? "";

/** Not by locale: the order of jobs must not hang on the machine. */
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** What the jobs of one type of board have read, by place. It is gathered when `at` is first asked for, and kept. */
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
