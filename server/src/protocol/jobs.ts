import { type CancellationToken, Cancelled } from "../base/cancellation";
import { defined } from "../base/defined";
import { inTurns, nextTurn } from "../base/turns";
import { byAge, factsOf, hasFacts, type JobFacts, type JobTime, jobOf } from "../features/jobs";
import { statusOf } from "../features/jobs/status";
import { partsListSteps } from "../features/parts-list";
import { boardsOf } from "../features/view";
import type { LogSummary } from "../log/summary";
import { knowledgeKind } from "../workspace/host";
import { report } from "./answer";
import { JOB_STATUS, JOBS, JOBS_CHANGED } from "./custom-requests/jobs";
import { onOwn } from "./own-request";
import { whenRemembered } from "./remembered";
import type { Session } from "./session";

/** Milliseconds without an edit before anything is worked out or told: the hand that types comes first. */
const QUIET = 600;
/** Milliseconds of work after which what is known so far is told. */
const STRETCH = 300;

interface Kept {
  /** What the facts were worked out from: another one of these, and they are worked out again. */
  readonly from: readonly unknown[];
  /** Absent where they could not be worked out. */
  readonly facts?: JobFacts;
}

/** Answers where the jobs stand, and tells when that has changed. */
export function handleJobs(session: Session): void {
  const { connection, service, documents, events, typingRest, ended } = session;
  const kept = new Map<string, Kept>();
  /** Somebody shows what was answered last. */
  let asked = false;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let working = false;

  const tell = (): void => {
    if (!asked || ended.isCancellationRequested) return;
    asked = false;
    connection.sendNotification(JOBS_CHANGED).catch((error: unknown) => report(connection, "Telling", error));
  };
  const tellSoon = (): void => {
    if (!asked) return;
    clearTimeout(timer);
    timer = setTimeout(tell, QUIET);
  };
  const fromOf = ({ uri }: LogSummary): readonly unknown[] => {
    const open = service.view(uri);
    if (open) return [open];
    // Two texts may sum up alike and still differ in what is to be ordered.
    return [service.textStamp(uri), ...service.earlierJobs(uri), ...service.judgedBy(uri)];
  };
  const isFresh = (summary: LogSummary): boolean => {
    const from = fromOf(summary);
    const last = kept.get(summary.uri)?.from;
    return last?.length === from.length && last.every((each, at) => each === from[at]);
  };

  /** Works out what is missing until a stretch is over; the next request takes it up again. */
  const work = async (summaries: readonly LogSummary[]): Promise<void> => {
    if (working) return;
    working = true;
    const began = performance.now();
    let done = 0;
    try {
      for (const summary of summaries) {
        if (!asked || (done > 0 && performance.now() - began > STRETCH)) break;
        await typingRest.after(QUIET, ended);
        const from = fromOf(summary);
        kept.set(summary.uri, { from, ...(await workOut(summary.uri, session)) });
        done += 1;
      }
    } catch (error) {
      report(connection, "Working out the jobs", error);
    } finally {
      working = false;
      if (done > 0) tell();
    }
  };

  onOwn(session, JOBS, "The jobs", async (time: JobTime, token) => {
    await whenRemembered(session, token);
    asked = true;
    const summaries = service.jobs();
    const { boards } = service.knowledge.snapshot();
    const there = new Set(summaries.map(({ uri }) => uri));
    for (const uri of kept.keys()) if (!there.has(uri)) kept.delete(uri);
    const jobs = summaries.map((summary) => {
      const ids = summary.boards ?? (summary.board === undefined ? [] : [summary.board]);
      const known = ids.flatMap((id) => boards.get(id) ?? []);
      const [board] = known;
      const title = ids.map((id) => boards.get(id)?.value.title ?? id).join(", ");
      const about = board && { uri: documents.clientUri(board.uri), title };
      const job = jobOf(summary, about, kept.get(summary.uri)?.facts, time);
      return { ...job, uri: documents.clientUri(job.uri) };
    });
    const missing = summaries.filter((summary) => hasFacts(summary) && !isFresh(summary));
    if (missing.length > 0) void work(missing);
    return { jobs: jobs.sort(byAge) };
  });

  onOwn(session, JOB_STATUS, "The job's state", async ({ uri, ...time }, token) => {
    await session.ready;
    await nextTurn(token);
    const before = documents.get(uri);
    if (before) await session.diagnoses.make(before.uri, token);
    const document = documents.get(uri);
    const view = document && service.view(document.uri);
    if (!document || !view) return null;
    asked = true;
    const { proving, ...status } = statusOf(view, time);
    return defined({
      ...status,
      proving: proving === undefined ? undefined : document.lines.lineAt(proving),
    });
  });

  events.edited.on((document) => {
    if (!knowledgeKind(document.uri)) tellSoon();
  });
  events.remembered.on(tellSoon);
  events.everythingChanged.on(tellSoon);
  ended.onCancellationRequested(() => clearTimeout(timer));
}

async function workOut(uri: string, { connection, service, ended }: Session): Promise<{ facts?: JobFacts }> {
  try {
    const view = service.view(uri) ?? (await closedView(uri, service, ended));
    if (!view) return {};
    // What is to be ordered follows from who is suspected, where anything is found wrong.
    for (const one of boardsOf(view)) await inTurns(partsListSteps(one), ended);
    return { facts: factsOf(view) };
  } catch (error) {
    if (error instanceof Cancelled) throw error;
    report(connection, `Working out ${uri}`, error);
    return {};
  }
}

async function closedView(uri: string, service: Session["service"], token: CancellationToken) {
  const text = await service.read(uri);
  if (text === undefined) return undefined;
  await inTurns(service.prepare(uri, text), token);
  return service.viewOf(uri, text);
}
