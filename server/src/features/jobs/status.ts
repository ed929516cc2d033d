// Where one job stands, for the line below the editor.

import { defined } from "../../base/defined";
import type { Stage } from "../../knowledge/load-front-matter";
import { tablesOf } from "../../log/document";
import { summarise } from "../../log/summary";
import { provingReview } from "../../review/proving";
import { diagnosisOf, evidenceIn } from "../shared/diagnosis";
import type { LogView } from "../view";
import { type Job, type JobTime, jobOf } from ".";

/** Where a job stands. Of `toProve` items in all, `unproven` are left to be shown; the `failed` are among those. */
export interface JobStatus {
  readonly stage?: Stage;
  readonly days?: number;
  readonly old: boolean;
  readonly unproven: number;
  readonly failed: number;
  readonly toProve: number;
  /** What to do next, as a sentence; absent where nothing tells. */
  readonly next?: string;
  /** Offset of the heading of the last proving table. */
  readonly proving?: number;
}

/** Of a log about several boards all of them together: it is proven when each of them is. */
export function statusOf(view: LogView, time: JobTime): JobStatus {
  if (!view.set) return statusOfOne(view, time);
  const all = view.set.map((one) => ({ name: one.doc.ofSet?.name, status: statusOfOne(one, time) }));
  const sum = (of: (status: JobStatus) => number) => all.reduce((done, { status }) => done + of(status), 0);
  const { stage, days, old }: Job = jobOf(summarise(view.doc), undefined, undefined, time);
  const first = all.find(({ status }) => status.next !== undefined);
  return defined({
    stage,
    days,
    old,
    unproven: sum(({ unproven }) => unproven),
    failed: sum(({ failed }) => failed),
    toProve: sum(({ toProve }) => toProve),
    next: first && `${first.name}: ${first.status.next}`,
    proving: all.map(({ status }) => status.proving).find((at) => at !== undefined),
  });
}

function statusOfOne(view: LogView, time: JobTime): JobStatus {
  const { items } = provingReview(view.doc, view.ctx);
  const open = items.filter(({ state, reason }) => state === "failed" || (state === "unproven" && !reason));
  const { stage, days, old }: Job = jobOf(summarise(view.doc), undefined, undefined, time);
  const next = nextStep(view, stage, open[0] && { title: open[0].item.title, wants: open[0].wants });
  const proving = provingHeading(view);
  return defined({
    stage,
    days,
    old,
    unproven: open.length,
    failed: open.filter(({ state }) => state === "failed").length,
    toProve: items.length,
    next,
    proving,
  });
}

/** Before the repair the reading that tells most, after it the first item to prove. */
function nextStep(
  view: LogView,
  stage: Stage | undefined,
  first: { readonly title: string; readonly wants: string } | undefined,
): string | undefined {
  if (stage === "returned" || stage === "scrapped") return undefined;
  if (stage === "repairing" || stage === "proving") return first && `${first.title}: ${first.wants}`;
  const evidence = evidenceIn(view);
  if (!evidence || evidence.findings.length === 0) return undefined;
  const best = diagnosisOf(view)?.advice.best;
  return best?.reason;
}

function provingHeading(view: LogView): number | undefined {
  let at: number | undefined;
  for (const { start, table } of tablesOf(view.doc)) {
    const heading = table.section.heading;
    if (table.kind.holds === "proving" && heading) at = start + heading.span.start;
  }
  return at;
}
