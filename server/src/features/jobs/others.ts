// The other logs of a job: a set may be several logs joined by their number.
import type { LogSummary } from "../../log/summary";
import { boardsOf, type LogView } from "../view";

/** What of the workspace is asked. */
interface Workspace {
  jobs(): readonly LogSummary[];
  read(uri: string): Promise<string | undefined>;
  viewOf(uri: string, text: string): LogView | undefined;
}

/** The job's other boards that have logs of their own: the same number, and the same owner. */
export async function othersOfJob(
  { doc, front }: LogView,
  workspace: Workspace,
): Promise<readonly LogView[]> {
  const same = (a: string | undefined, b: string | undefined): boolean =>
    (a ?? "").trim().toLowerCase() === (b ?? "").trim().toLowerCase();
  if ((front.job ?? "").trim() === "") return [];
  const views: LogView[] = [];
  const uris = workspace
    .jobs()
    .filter(({ uri, job, owner }) => uri !== doc.uri && same(job, front.job) && same(owner, front.owner))
    .map(({ uri }) => uri);
  for (const uri of uris.sort()) {
    const text = await workspace.read(uri);
    const view = text === undefined ? undefined : workspace.viewOf(uri, text);
    if (view) views.push(...boardsOf(view));
  }
  return views;
}
