import { frontSpan } from "../../log/front";
import { jobIndex, spelt } from "../../log/job-index";
import type { LogSummary } from "../../log/summary";
import { type Span, span } from "../../text/span";
import { curesOnSuchBoards } from "../shared/shop-jobs";
import type { LogView } from "../view";
import type { Lens, LensTitle } from "./types";

interface Alike {
  /** As typed in this log. */
  readonly symptom: string;
  readonly logs: readonly LogSummary[];
}

/** Above the symptoms, where an earlier job of the same board had one of them. */
export function earlierLenses(view: LogView): Lens[] {
  const at = frontSpan(view.doc, ["symptoms"]);
  return at && sharedSymptoms(view).length > 0 ? [{ span: at, of: "earlier" }] : [];
}

export function earlierTitle(view: LogView): LensTitle | undefined {
  const found = sharedSymptoms(view);
  if (found.length === 0) return undefined;
  const logs = [...new Set(found.flatMap((each) => each.logs))].sort(byDate);
  const count = jobs(logs.length);
  // Where all of them had the same, it is said once: "1 with this, 1 with that" would be read as two.
  const alike = found.every((each) => each.logs.length === logs.length);
  const title =
    view.front.symptoms?.length === 1
      ? `${count} with this symptom`
      : alike
        ? `${count} with ${found.map(({ symptom }) => symptom).join(" and ")}`
        : `${count}: ${found.map(({ symptom, logs: own }) => `${own.length} with ${symptom}`).join(", ")}`;
  return { title: `${title}${mostCured(view, found)}`, logs: logs.map(({ uri }) => uri) };
}

/** ", U14 replaced in 3": the part that was replaced when one of the symptoms was cured, most often, where that was more than once. */
function mostCured(view: LogView, found: readonly Alike[]): string {
  const cures = found.flatMap(({ symptom }) => curesOnSuchBoards(view, symptom));
  const [most] = cures.sort((a, b) => b.cured - a.cured || (a.ref < b.ref ? -1 : 1));
  return most && most.cured > 1 ? `, ${most.ref} replaced in ${most.cured}` : "";
}

const jobs = (count: number): string => (count === 1 ? "1 earlier job" : `${count} earlier jobs`);

/** Latest first: what was found last time is looked at before what was found years ago. */
const byDate = (a: LogSummary, b: LogSummary): number => (b.received ?? "").localeCompare(a.received ?? "");

/** Symptoms are ids of the board file or free words, so only logs of the same board are alike. */
function sharedSymptoms({ doc, front, earlier }: LogView): Alike[] {
  const { board, received } = front;
  if (board === undefined || !earlier) return [];
  const logs = jobIndex(earlier)
    .ofBoard(board)
    .filter((log) => log.uri !== doc.uri && isBefore(log.received, received));
  return [...new Set(front.symptoms ?? [])].flatMap((symptom) => {
    const same = logs.filter((log) => log.symptoms.some((other) => spelt(other) === spelt(symptom)));
    return same.length > 0 ? [{ symptom, logs: same }] : [];
  });
}

/** A log without a date may be of any time. */
const isBefore = (other: string | undefined, own: string | undefined): boolean =>
  other === undefined || own === undefined || other <= own;

/** Where a log's text names its symptoms; its beginning where it names none any more. */
export function symptomsPlace(text: string): Span {
  const at = /^symptoms[ \t]*:.*$/m.exec(text);
  return at ? span(at.index, at.index + at[0].trimEnd().length) : span(0, 0);
}
