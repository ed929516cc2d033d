import { boardHistory, returnedJobs } from "../judge/baseline/history";
import { type BoardHistory, FEWEST_BOARDS } from "../judge/baseline/types";
import type { Knowledge, Known } from "../judge/context";
import type { Board } from "../knowledge/types";
import type { JobsSnapshot } from "./log-index";

/** Each board's returned jobs, the same object for as long as neither they nor the board changed. */
export class Histories {
  readonly #known = new Map<
    string,
    { readonly memory: JobsSnapshot; readonly history: BoardHistory | undefined }
  >();

  /** Undefined where there are too few jobs for anything to be made of them. */
  of(board: Known<Board>, { library }: Knowledge, memory: JobsSnapshot): BoardHistory | undefined {
    const { id } = board.value;
    const known = this.#known.get(id);
    const last = known?.history;
    const current = last === undefined || (last.board === board.value && last.library === library);
    if (known?.memory === memory && current) return last;
    const jobs = returnedJobs(memory.logs, id);
    const same = last?.jobs.length === jobs.length && last.jobs.every((job, i) => job === jobs[i]);
    const history =
      jobs.length < FEWEST_BOARDS
        ? undefined
        : current && same
          ? last
          : boardHistory(jobs, board.value, library, last);
    this.#known.set(id, { memory, history });
    return history;
  }
}
