// What the shop's other jobs on such boards tell of a symptom, a part and the board, with the numbers behind it.
import { byUri, jobIndex } from "../../log/job-index";
import type { LogSummary } from "../../log/summary";
import { comebackRows } from "../../review/numbers/comebacks";
import { curesFor } from "../../review/numbers/cures";
import { replacedAt } from "../../review/numbers/failures";
import { hoursRows } from "../../review/numbers/hours";
import type { CureRow } from "../../review/numbers/types";
import { joined, type Markdown, markdown, md } from "../../text/markdown";
import type { LogView } from "../view";

/** Parts that are told of; the page of the shop's numbers has all. */
const FEW = 5;

/** The workspace's logs of the same board as this one's, without this one. */
export function jobsOnSuchBoards({ doc, front, earlier }: LogView): LogSummary[] {
  const { board } = front;
  if (board === undefined || !earlier) return [];
  return jobIndex(earlier)
    .ofBoard(board)
    .filter(({ uri }) => uri !== doc.uri);
}

/** What was replaced where the symptom was cured before, most often first; undefined where no job cured it. */
export function curesMarkdown(view: LogView, symptom: string): Markdown | undefined {
  const cures = curesOnSuchBoards(view, symptom);
  const [first] = cures;
  if (!first) return undefined;
  const lines = cures
    .slice(0, FEW)
    .map(({ ref, cured, jobs }) => markdown`- **${md(ref)}** in ${cured} of ${jobs}`);
  const more = cures.length > FEW ? [markdown`- and ${cures.length - FEW} other parts`] : [];
  return joined(
    [
      markdown`**Replaced when it was cured before** (${count(first.jobs, markdown`returned job`)} of this shop with it):`,
      joined([...lines, ...more], "\n"),
      markdown`What was replaced need not have been at fault.`,
      ...hoursOf(view, symptom),
    ],
    "\n\n",
  );
}

/** What has cured a symptom on boards of this type in the shop; none where the log names no board. */
export function curesOnSuchBoards(view: LogView, symptom: string): readonly CureRow[] {
  const { board } = view.front;
  return board === undefined ? [] : curesFor(jobsOnSuchBoards(view), board, symptom);
}

/** In how many of the shop's jobs on such boards a part was replaced, by year; undefined where it never was. */
export function replacedMarkdown(view: LogView, ref: string): Markdown | undefined {
  const jobs = jobsOnSuchBoards(view);
  const years = replacedAt(jobs, ref);
  const all = years.reduce((sum, year) => sum + year.jobs, 0);
  if (all === 0) return undefined;
  const each = joined(
    years.map(({ inYear, jobs: of }) => markdown`${inYear ?? markdown`no date`}: ${of}`),
    ", ",
  );
  return markdown`Replaced in ${all} of this shop's ${count(jobs.length, markdown`other job`)} on such boards (${each}).`;
}

/** What the jobs on such boards come to: how many, how many had been here before, how long one takes. */
export function boardJobsMarkdown(view: LogView): Markdown | undefined {
  const jobs = jobsOnSuchBoards(view);
  if (jobs.length === 0) return undefined;
  const back = comebackRows(byUri(jobs)).length;
  return joined(
    [
      markdown`${count(jobs.length, markdown`other job`)} on such boards in this shop${back === 0 ? "" : markdown`, ${back} of them on a board that had been here before`}.`,
      ...hoursOf(view, null),
    ],
    " ",
  );
}

function hoursOf(view: LogView, symptom: string | null): Markdown[] {
  const row = hoursRows(jobsOnSuchBoards(view)).find((each) => each.symptom === symptom);
  if (!row) return [];
  const { jobs, shortest, median, longest } = row;
  return jobs === 1
    ? [markdown`The one with hours noted took ${hours(median)}.`]
    : [
        markdown`${count(jobs, markdown`job`)} with hours noted took ${hours(shortest)} to ${hours(longest)}, the middle one ${hours(median)}.`,
      ];
}

const hours = (value: number): Markdown => markdown`${Math.round(value * 100) / 100} h`;
const count = (of: number, one: Markdown): Markdown => markdown`${of} ${one}${of === 1 ? "" : markdown`s`}`;
