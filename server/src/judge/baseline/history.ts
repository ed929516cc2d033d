import { heldWhileLight } from "../../base/held";
import type { Library } from "../../knowledge/library";
import type { Board } from "../../knowledge/types";
import { jobIndex, type Logs } from "../../log/job-index";
import type { LogSummary } from "../../log/summary";
import { placesOf } from "./places";
import { type BoardHistory, type JobReadings, MOST_BOARDS, type PlaceReading } from "./types";

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

/** Readings by place, and of each job its own: what it read need not be worked out again where another job changed. */
interface Gathered {
  readonly at: ReadonlyMap<string, readonly PlaceReading[]>;
  readonly of: ReadonlyMap<LogSummary, JobReadings>;
  readonly count: number;
}

/** Readings that are held in memory for all boards together, some 130 bytes each: those of a few hundred long logs. */
const MOST_HELD = 50_000;
const held = heldWhileLight<Gathered>(MOST_HELD, ({ count }) => count);

/**
 * What the jobs of one type of board have read, by place. It is gathered when `at` is first asked for, and kept while few other
 * boards are asked for.
 * @param before the last history of the same board, from which what its jobs have read is taken over
 */
export function boardHistory(
  jobs: readonly LogSummary[],
  board: Board,
  library: Library,
  before?: BoardHistory,
): BoardHistory {
  // Not held on to any longer than it is of use: it would hold the one before it.
  let known = before?.board === board && before.library === library && before.isAtHand() ? before : undefined;
  const gathered = held(() => {
    const last = known;
    known = undefined;
    return gather(jobs, board, library, last);
  });
  return {
    board,
    library,
    jobs,
    get at() {
      return gathered.get().at;
    },
    isAtHand: () => gathered.now() !== undefined,
    readBy: (job) => gathered.now()?.of.get(job),
  };
}

function gather(
  jobs: readonly LogSummary[],
  board: Board,
  library: Library,
  before: BoardHistory | undefined,
): Gathered {
  const at = new Map<string, PlaceReading[]>();
  const of = new Map<LogSummary, JobReadings>();
  let count = 0;
  for (const job of jobs) {
    const read = before?.readBy(job) ?? readBy(job, board, library);
    of.set(job, read);
    for (const [i, reading] of read.readings.entries()) {
      const key = read.keys[i]!;
      const readings = at.get(key);
      if (readings) readings.push(reading);
      else at.set(key, [reading]);
    }
    count += read.readings.length;
  }
  return { at, of, count };
}

function readBy(job: LogSummary, board: Board, library: Library): JobReadings {
  const places = placesOf(job, board, library);
  return { keys: [...places.keys()], readings: [...places.values()] };
}
