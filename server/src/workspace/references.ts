import { boardHistory, referenceJobs } from "../judge/baseline/history";
import type { Knowledge, Known } from "../judge/context";
import type { ReferenceJobs } from "../judge/reference-job";
import type { Board, Meter } from "../knowledge/types";
import type { LogSummary } from "../log/summary";
import { nearestShop } from "./context";
import type { JobsSnapshot } from "./log-index";

interface Kept {
  readonly memory: JobsSnapshot;
  readonly knowledge: Knowledge;
  readonly board: Board;
  readonly jobs: ReferenceJobs | undefined;
}

/** Each board's reference jobs, the same object for as long as neither they, their meters nor the board changed. */
export class ReferenceStore {
  readonly #known = new Map<string, Kept>();

  /** Undefined where no log of the board is one. */
  of({ value: board }: Known<Board>, knowledge: Knowledge, memory: JobsSnapshot): ReferenceJobs | undefined {
    const known = this.#known.get(board.id);
    if (known?.memory === memory && known.knowledge === knowledge && known.board === board) return known.jobs;
    const logs = referenceJobs(memory.logs, board.id);
    const meters = metersOf(logs, knowledge);
    const last = known?.jobs;
    const isSame =
      last?.history.board === board &&
      last.history.library === knowledge.library &&
      last.history.jobs.length === logs.length &&
      logs.every(
        (log, i) => last.history.jobs[i] === log && last.meters.get(log.uri) === meters.get(log.uri),
      );
    const jobs =
      logs.length === 0
        ? undefined
        : isSame
          ? last
          : { history: boardHistory(logs, board, knowledge.library, last?.history), meters };
    this.#known.set(board.id, { memory, knowledge, board, jobs });
    return jobs;
  }
}

/** The meters that logs were read with, where the shop file nearest to each knows them. */
export function metersOf(logs: readonly LogSummary[], { shops }: Knowledge): ReadonlyMap<string, Meter> {
  const meters = new Map<string, Meter>();
  for (const { uri, meter } of logs) {
    const found = meter === undefined ? undefined : nearestShop(uri, shops)?.value.meters.get(meter);
    if (found) meters.set(uri, found);
  }
  return meters;
}
