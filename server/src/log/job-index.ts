// The workspace's logs by what they are looked for: board, board and serial number, job number. A question costs what is
// found, not all there is.
import { memo } from "../base/memo";
import { eachBoard, type LogSummary } from "./summary";

/** What is remembered of logs, by uri. Never changes: where one does, there is a new map. */
export type Logs = ReadonlyMap<string, LogSummary>;

export interface JobIndex {
  /** The logs of a board, its id as written, in the order of all logs. */
  ofBoard(board: string): readonly LogSummary[];
  /** Those that a board and a serial number name, however they are spelt; none where either is blank. */
  ofSerial(board: string, serial: string): readonly LogSummary[];
  /** The logs with a job number, however it is spelt. */
  numbered(job: string): readonly LogSummary[];
  /** Every job number, as written. */
  readonly numbers: ReadonlySet<string>;
  /** The job numbers that others name as those they came back from, as written. */
  readonly cameBack: ReadonlySet<string>;
}

/** Logs by uri, kept with the list. */
export const byUri = memo((logs: readonly LogSummary[]): Logs => new Map(logs.map((log) => [log.uri, log])));

/** Spelt as one likes: "01873 " and "01873", "a-17" and "A-17". Leading zeros count. */
export const spelt = (text: string): string => text.trim().toLowerCase();

/**
 * Finds jobs by board, serial and number. Made once for the logs; a log about several boards is found by each of them.
 */
export const jobIndex = memo((logs: Logs): JobIndex => {
  const boards = new Map<string, LogSummary[]>();
  const serials = new Map<string, LogSummary[]>();
  const jobs = new Map<string, LogSummary[]>();
  const numbers = new Set<string>();
  const cameBack = new Set<string>();
  const add = (map: Map<string, LogSummary[]>, key: string, log: LogSummary): void => {
    const list = map.get(key);
    if (list) list.push(log);
    else map.set(key, [log]);
  };
  for (const log of eachBoard(logs.values())) {
    const { board, serial, job, comebackOf } = log;
    if (board !== undefined) add(boards, board, log);
    if (board !== undefined && serial !== undefined) add(serials, serialKey(board, serial), log);
    if (job !== undefined) {
      add(jobs, spelt(job), log);
      numbers.add(job);
    }
    if (comebackOf !== undefined) cameBack.add(comebackOf);
  }
  return {
    ofBoard: (board) => boards.get(board) ?? [],
    ofSerial: (board, serial) =>
      spelt(board) === "" || spelt(serial) === "" ? [] : (serials.get(serialKey(board, serial)) ?? []),
    numbered: (job) => (spelt(job) === "" ? [] : (jobs.get(spelt(job)) ?? [])),
    numbers,
    cameBack,
  };
});

const serialKey = (board: string, serial: string): string => `${spelt(board)}\n${spelt(serial)}`;
