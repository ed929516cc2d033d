// What can be picked for a new log, so that as little as possible has to be typed.
import type { Knowledge } from "../../judge/context";
import type { Board } from "../../knowledge/types";
import type { LogSummary } from "../../log/summary";
import { boardsAround } from "./board-named";
import { nextJob } from "./next-job";

export interface Choice {
  readonly id: string;
  readonly title: string;
}

export interface BoardChoice extends Choice {
  /** False for one that only logs name. */
  readonly hasFile: boolean;
  readonly revisions: readonly Choice[];
  readonly symptoms: readonly Choice[];
}

export interface NewLogChoices {
  /** The number proposed. */
  readonly job: string;
  /** Numbers that other jobs have. */
  readonly taken: readonly string[];
  /** Those with a file first. */
  readonly boards: readonly BoardChoice[];
  /** Owners of earlier jobs, the latest first. */
  readonly owners: readonly string[];
  /** The one used last comes first. */
  readonly meters: readonly Choice[];
}

/**
 * @param today ISO 8601 day
 * @param folder where the log is going to be, if that is known: the shop file above it counts
 */
export function newLogChoices(
  logs: readonly LogSummary[],
  { boards, library, shops }: Knowledge,
  today: string,
  folder?: string,
): NewLogChoices {
  const latest = [...logs].sort(
    (a, b) =>
      (b.received ?? "").localeCompare(a.received ?? "") ||
      (b.job ?? "").localeCompare(a.job ?? "", "en", { numeric: true }),
  );
  const taken = logs.flatMap(({ job }) => job ?? []);
  const above = shops
    .filter(({ uri }) => folder?.startsWith(uri.slice(0, uri.lastIndexOf("/") + 1)))
    .sort((a, b) => b.uri.length - a.uri.length);
  const nearest = above.length > 0 ? above.slice(0, 1) : shops;
  const meters = new Map(
    nearest.flatMap(({ value }) => [...value.meters.values()].map(({ id, title }) => [id, { id, title }])),
  );
  const used = latest.find(({ meter }) => meter !== undefined && meters.has(meter))?.meter;
  return {
    job: nextJob(taken, today),
    taken,
    // What a log has by a slip is no board to choose.
    boards: boardsAround({ boards, library, logs }).flatMap(({ id, title, file, near }) =>
      near ? [] : { id, title, hasFile: file !== undefined, ...listedIn(file?.value) },
    ),
    owners: [...new Set(latest.flatMap(({ owner }) => owner ?? []))],
    meters: [...meters.values()].sort((a, b) => Number(b.id === used) - Number(a.id === used)),
  };
}

const listedIn = (board: Board | undefined): Pick<BoardChoice, "revisions" | "symptoms"> => ({
  revisions: [...(board?.revisions ?? [])].map(([id, title]) => ({ id, title })),
  symptoms: [...(board?.symptoms.values() ?? [])].map(({ id, title }) => ({ id, title })),
});
