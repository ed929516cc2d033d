// What the logs of one board say together where no board file does: the second board of a type knows the first one's parts.
import type { Said, SharedStatements } from "../judge/stated/types";
import type { PartStated, Statement } from "../log/stated/statement";
import type { LogSummary } from "../log/summary";
import type { Memory } from "./log-index";

export class SharedBoards {
  #memory: Memory | undefined;
  #logs = new Map<string, LogSummary[]>();
  readonly #known = new Map<string, { memory: Memory; key: string; shared: SharedStatements | undefined }>();

  /**
   * The same object for as long as these logs say the same; undefined where none says anything.
   * @param except uri of the log that asks, where it stands in the editor otherwise than on disk
   */
  of(board: string, memory: Memory, except?: string): SharedStatements | undefined {
    const id = JSON.stringify([board, except]);
    const known = this.#known.get(id);
    if (known?.memory === memory) return known.shared;
    const logs = this.#logsOf(board, memory).filter(({ uri, stated }) => uri !== except && stated.length > 0);
    const key = JSON.stringify(logs.map(({ uri, job, stated }) => [uri, job, stated]));
    const shared = known?.key === key ? known.shared : logs.length === 0 ? undefined : together(logs);
    this.#known.set(id, { memory, key, shared });
    return shared;
  }

  #logsOf(board: string, memory: Memory): readonly LogSummary[] {
    if (this.#memory !== memory) {
      this.#memory = memory;
      this.#logs = new Map();
      for (const log of memory.logs.values()) {
        if (log.board === undefined) continue;
        const list = this.#logs.get(log.board);
        if (list) list.push(log);
        else this.#logs.set(log.board, [log]);
      }
    }
    return this.#logs.get(board) ?? [];
  }
}

/** The last job first; of a part's number the one that most jobs give, and none where as many give another. */
function together(logs: readonly LogSummary[]): SharedStatements {
  const ordered = [...logs].sort(
    (a, b) => compare(b.received ?? "", a.received ?? "") || compare(a.uri, b.uri),
  );
  const said: Said[] = [];
  const told = new Set<string>();
  const votes = new Map<string, Map<string, number>>();
  for (const { stated } of ordered) {
    for (const statement of stated) {
      if (statement.kind !== "part" || statement.device === undefined) continue;
      const counts = votes.get(statement.ref.toUpperCase()) ?? new Map<string, number>();
      votes.set(statement.ref.toUpperCase(), counts);
      const device = plain(statement.device);
      counts.set(device, (counts.get(device) ?? 0) + 1);
    }
  }
  const isWon = ({ ref, device }: PartStated): boolean => {
    const counts = votes.get(ref.toUpperCase());
    if (device === undefined || !counts) return true;
    const own = counts.get(plain(device)) ?? 0;
    return [...counts].every(([other, count]) => other === plain(device) || count < own);
  };
  for (const { uri, job, stated } of ordered) {
    const by = { by: "job" as const, uri, job: job ?? uri.slice(uri.lastIndexOf("/") + 1) };
    for (const statement of stated) {
      const words = wordsOf(statement);
      if (told.has(words) || (statement.kind === "part" && !isWon(statement))) continue;
      told.add(words);
      said.push({ statement, by });
    }
  }
  return { said, logs: new Set(logs.map(({ uri }) => uri)) };
}

/** The same for statements that add nothing to one another: a thousand jobs say no more of a board than a few. */
function wordsOf(statement: Statement): string {
  if (statement.kind !== "part") return JSON.stringify(statement);
  const { ref, device, value, by } = statement;
  return ["part", ref.toUpperCase(), device === undefined ? value : plain(device), by === "fitted"].join(
    "\n",
  );
}

const plain = (device: string): string => device.replace(/\s+/g, "").toUpperCase();
/** Not by locale: the order of jobs must not hang on the machine. */
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
