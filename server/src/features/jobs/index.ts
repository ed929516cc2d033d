// The jobs of a workspace: where each stands, how long it has been here, what it waits for and what is still unproven.

import { defined } from "../../base/defined";
import type { Stage } from "../../knowledge/load-front-matter";
import type { LogSummary } from "../../log/summary";
import { isOpen } from "../../review/parts/order";
import { provingReview } from "../../review/proving";
import { partsListOf } from "../parts-list";
import type { LogView } from "../view";

/** What only a log's own readings tell, against the board file and the shop's shelf. */
export interface JobFacts {
  /** Items of the board's proving list that nothing shows to work; those that failed are among them. */
  readonly unproven: number;
  readonly failed: number;
  /** Items of that list; 0 where the board has none. */
  readonly toProve: number;
  /** Parts the parts list says are to be ordered. */
  readonly toOrder: readonly { readonly part: string; readonly pieces: number }[];
}

/** One job of the workspace as the list of jobs shows it. */
export interface Job {
  readonly uri: string;
  readonly job?: string;
  readonly title?: string;
  /** Title of the board, its id as written where no file describes it. */
  readonly board?: string;
  readonly boardUri?: string;
  readonly serial?: string;
  readonly owner?: string;
  /** Absent where none is given, or the front matter cannot be read so far. */
  readonly stage?: Stage;
  /** ISO 8601 days. */
  readonly received?: string;
  readonly returned?: string;
  /** Days since it came in, or between coming in and going back; absent where the dates do not tell. */
  readonly days?: number;
  /** True for an open job that has been here longer than it should. */
  readonly old: boolean;
  readonly comebackOf?: string;
  /** Only of open jobs, and only once they were worked out. */
  readonly facts?: JobFacts;
}

export interface JobTime {
  /** ISO 8601 day. */
  readonly today: string;
  /** An open job is old from this many days on. */
  readonly oldAfterDays: number;
}

/** True for a job whose readings still matter to what is to be done; the others are told from their summary alone. */
export const hasFacts = ({ stage }: Pick<LogSummary, "stage">): boolean => isOpen(stage);

/** What is unproven and to be ordered for a job, of all its boards. May take as long as a diagnosis. */
export function factsOf(view: LogView): JobFacts {
  if (!view.set) return factsOfOne(view);
  const all = view.set.map(factsOfOne);
  const sum = (of: (facts: JobFacts) => number) => all.reduce((done, facts) => done + of(facts), 0);
  return {
    unproven: sum(({ unproven }) => unproven),
    failed: sum(({ failed }) => failed),
    toProve: sum(({ toProve }) => toProve),
    toOrder: all.flatMap(({ toOrder }) => toOrder),
  };
}

function factsOfOne(view: LogView): JobFacts {
  const { items } = provingReview(view.doc, view.ctx);
  const open = items.filter(({ state, reason }) => state === "failed" || (state === "unproven" && !reason));
  return {
    unproven: open.length,
    failed: open.filter(({ state }) => state === "failed").length,
    toProve: items.length,
    toOrder: partsListOf(view)
      .suggested.filter(({ order }) => order > 0)
      .map(({ part, order }) => ({ part, pieces: order })),
  };
}

/** @param board what the workspace knows of the board that the log names */
export function jobOf(
  summary: LogSummary,
  board: { readonly uri: string; readonly title: string } | undefined,
  facts: JobFacts | undefined,
  { today, oldAfterDays }: JobTime,
): Job {
  const { uri, job, title, serial, owner, stage, received, returned, comebackOf } = summary;
  const open = isOpen(stage);
  const days = received === undefined ? undefined : daysBetween(received, open ? today : returned);
  const name = board?.title ?? summary.board;
  return defined({
    uri,
    job,
    title,
    board: name,
    boardUri: board?.uri,
    serial,
    owner,
    stage,
    received,
    returned,
    days,
    old: open && days !== undefined && days >= oldAfterDays,
    comebackOf,
    facts: open && facts ? facts : undefined,
  });
}

/** Whole days from one ISO 8601 day to another; undefined where the second is absent or comes first. */
function daysBetween(from: string, to: string | undefined): number | undefined {
  const days = to === undefined ? Number.NaN : (Date.parse(to) - Date.parse(from)) / 86_400_000;
  return days >= 0 ? days : undefined;
}

/** Open jobs first, the longest here before the others; of those gone, the latest first. */
export function byAge(a: Job, b: Job): number {
  const open = isOpen(a.stage);
  if (open !== isOpen(b.stage)) return open ? -1 : 1;
  const order = open
    ? (a.received ?? "9").localeCompare(b.received ?? "9")
    : (b.returned ?? b.received ?? "").localeCompare(a.returned ?? a.received ?? "");
  return order || (a.job ?? a.uri).localeCompare(b.job ?? b.uri, "en", { numeric: true });
}
