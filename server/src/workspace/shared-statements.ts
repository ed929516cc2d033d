// What the logs of one board say together where no board file does: the second board of a type knows the first one's parts.
import { memo } from "../base/memo";
import { finish, type Steps } from "../base/steps";
import type { AttributedStatement, SharedStatements } from "../judge/stated/types";
import type { Library } from "../knowledge/library";
import { normalPart } from "../knowledge/part-number";
import { jobIndex } from "../log/job-index";
import type { PartStated, Statement } from "../log/stated/statement";
import type { LogSummary } from "../log/summary";
import type { JobsSnapshot } from "./log-index";
import { textHash } from "./text-hash";

/** Logs that are gone through in one step, about a millisecond. */
const AT_A_TIME = 16;

export class SharedBoards {
  readonly #known = new Map<string, Known>();

  /**
   * The same object for as long as these logs say the same; undefined where none says anything.
   * @param except uri of the log that asks, where it stands in the editor otherwise than on disk
   */
  of(board: string, memory: JobsSnapshot, library: Library, except?: string): SharedStatements | undefined {
    return finish(this.steps(board, memory, library, except));
  }

  /** The same in steps: the call for the same that follows costs nothing. */
  *steps(
    board: string,
    memory: JobsSnapshot,
    library: Library,
    except?: string,
  ): Steps<SharedStatements | undefined> {
    const id = JSON.stringify([board, except]);
    const last = this.#known.get(id);
    const known = last?.library === library ? last : undefined;
    if (known?.memory === memory) return known.shared;
    const logs = jobIndex(memory.logs)
      .ofBoard(board)
      .filter(({ uri }) => uri !== except);
    const isSame = known !== undefined && (yield* sayTheSame(known.logs, logs));
    const shared = isSame ? known.shared : yield* together(logs, library);
    this.#known.set(id, { memory, library, logs, shared });
    return shared;
  }
}

interface Stating {
  readonly uri: string;
  readonly job: string | undefined;
  readonly received: string | undefined;
  readonly stated: readonly Statement[];
}

interface Known {
  readonly memory: JobsSnapshot;
  readonly library: Library;
  readonly logs: readonly LogSummary[];
  readonly shared: SharedStatements | undefined;
}

/** Stands for what a log says of its board; nothing where it says nothing. */
const saidBy = memo(({ uri, job, stated }: LogSummary): string =>
  stated.length === 0 ? "" : textHash(JSON.stringify([uri, job, stated])),
);

/**
 * Whether logs say one after the other what others said, those left out that say nothing. Of logs that are the very same nothing
 * has to be unpacked for it, and none behind the first that says something else: a thousand are new at once when all are read.
 */
function* sayTheSame(before: readonly LogSummary[], now: readonly LogSummary[]): Steps<boolean> {
  const said = (log: LogSummary | undefined): string => (log ? saidBy(log) : "");
  let steps = 0;
  for (let i = 0, j = 0; i < before.length || j < now.length; ) {
    const [a, b] = [before[i], now[j]];
    if (++steps % AT_A_TIME === 0) yield;
    if (a === b || said(a) === said(b)) {
      i += 1;
      j += 1;
    } else if (a && said(a) === "") i += 1;
    else if (b && said(b) === "") j += 1;
    else return false;
  }
  return true;
}

/**
 * The last job first; of a part's number the one that most jobs give, and none where as many give another. A number that
 * was read on a board says what the place calls for; one that was fitted says so only where no job has read one.
 */
function* together(summaries: readonly LogSummary[], library: Library): Steps<SharedStatements | undefined> {
  const logs: Stating[] = [];
  let steps = 0;
  for (const { uri, job, received, stated } of summaries) {
    // What is packed away is a new object whenever it is asked for: it is asked for once.
    if (stated.length > 0) logs.push({ uri, job, received, stated });
    if (++steps % AT_A_TIME === 0) yield;
  }
  if (logs.length === 0) return undefined;
  const ordered = [...logs].sort(
    (a, b) => compare(b.received ?? "", a.received ?? "") || compare(a.uri, b.uri),
  );
  const said: AttributedStatement[] = [];
  const told = new Set<string>();
  const read = new Map<string, Map<string, number>>();
  const fitted = new Map<string, Map<string, number>>();
  for (const { stated } of ordered) {
    if (++steps % AT_A_TIME === 0) yield;
    const heard = new Set<string>();
    for (const statement of stated) {
      if (statement.kind !== "part" || statement.device === undefined) continue;
      const ref = statement.ref.toUpperCase();
      const device = oneNumber(statement.device, library);
      const votes = statement.by === "fitted" ? fitted : read;
      // A job has one vote for a number, however often it says it.
      const vote = JSON.stringify([ref, device, statement.by === "fitted"]);
      if (heard.has(vote)) continue;
      heard.add(vote);
      const counts = votes.get(ref) ?? new Map<string, number>();
      votes.set(ref, counts);
      counts.set(device, (counts.get(device) ?? 0) + 1);
    }
  }
  const isWon = ({ ref, device }: PartStated): boolean => {
    const counts = read.get(ref.toUpperCase()) ?? fitted.get(ref.toUpperCase());
    if (device === undefined || !counts) return true;
    const number = oneNumber(device, library);
    const own = counts.get(number) ?? 0;
    return own > 0 && [...counts].every(([other, count]) => other === number || count < own);
  };
  for (const { uri, job, stated } of ordered) {
    if (++steps % AT_A_TIME === 0) yield;
    const by = { by: "job" as const, uri, job: job ?? uri.slice(uri.lastIndexOf("/") + 1) };
    for (const statement of stated) {
      const words = wordsOf(statement, library);
      if (told.has(words) || (statement.kind === "part" && !isWon(statement))) continue;
      told.add(words);
      said.push({ statement, by });
    }
  }
  return { said, logs: new Set(logs.map(({ uri }) => uri)) };
}

/** The same for statements that add nothing to one another: a thousand jobs say no more of a board than a few. */
function wordsOf(statement: Statement, library: Library): string {
  if (statement.kind !== "part") return JSON.stringify(statement);
  const { ref, device, value, by } = statement;
  return [
    "part",
    ref.toUpperCase(),
    device === undefined ? value : oneNumber(device, library),
    by === "fitted",
  ].join("\n");
}

/** The same for all ways of writing one number: "7404", "SN7404N". */
function oneNumber(device: string, library: Library): string {
  const found = library.device(device);
  return found ? JSON.stringify([found.device.id, found.family?.id]) : normalPart(device);
}

/** Not by locale: the order of jobs must not hang on the machine. */
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
