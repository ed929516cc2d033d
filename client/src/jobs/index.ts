import { commands, Disposable, l10n, Uri, window, workspace } from "vscode";
import { JOBS, JOBS_CHANGED, type Job } from "../../../server/src/protocol/custom-requests/jobs";
import type { Feature, Mendlog } from "../mendlog";
import { oldAfterDays } from "./setting";
import { showStatus } from "./status";
import { type JobNode, JobTree } from "./tree";
import { todayHere } from "./words";

/** True once it is known that there is none: the view's words of welcome wait for it. */
const NO_JOBS = "mendlog.noJobs";

/** The Jobs view and the line below the editor. */
export const jobs: Feature = (mendlog) => Disposable.from(showJobs(mendlog), showStatus(mendlog));

/** The view asks only while it is to be seen. */
function showJobs(mendlog: Mendlog): Disposable {
  let last: readonly Job[] = [];
  let dirty = false;
  /** Asked at least once: before that a view that is only being opened would seem empty, and give the keyboard away. */
  let known = false;
  const tree = new JobTree(async () => {
    if (known && !view.visible) {
      dirty = true;
      return last;
    }
    await mendlog.start();
    const answer = await mendlog.request(JOBS, { today: todayHere(), oldAfterDays: oldAfterDays() });
    // A server that is being started again has no answer; what was known is better than nothing.
    last = answer?.jobs ?? last;
    known ||= answer !== null;
    void commands.executeCommand("setContext", NO_JOBS, known && last.length === 0);
    const open = last.filter(({ stage }) => stage !== "returned" && stage !== "scrapped").length;
    view.description = open === 1 ? l10n.t("1 open") : open > 1 ? l10n.t("{0} open", open) : "";
    return last;
  });
  const view = window.createTreeView("mendlog.jobs", { treeDataProvider: tree });
  const changed = () => {
    if (view.visible) tree.refresh();
    else dirty = true;
  };
  return Disposable.from(
    view,
    tree,
    view.onDidChangeVisibility(({ visible }) => {
      if (!visible || !dirty) return;
      dirty = false;
      tree.refresh();
    }),
    mendlog.onDidStart(changed),
    mendlog.onNotice(JOBS_CHANGED, changed),
    workspace.onDidChangeConfiguration((event) => {
      if (event.affectsConfiguration("mendlog.jobs")) changed();
    }),
    commands.registerCommand("mendlog.jobs.writeReport", (node: unknown) =>
      withJob(node, async ({ uri }) => {
        // The report is written of the log as it stands in the editor.
        await window.showTextDocument(Uri.parse(uri));
        await commands.executeCommand("mendlog.writeReport");
      }),
    ),
    commands.registerCommand("mendlog.jobs.openBoard", (node: unknown) =>
      withJob(node, async ({ boardUri }) => {
        if (boardUri !== undefined) await window.showTextDocument(Uri.parse(boardUri));
      }),
    ),
  );
}

const nameOf = (uri: string): string => decodeURIComponent(uri.slice(uri.lastIndexOf("/") + 1));

/** From a menu a node comes along; from anywhere else nothing tells which job is meant. */
async function withJob(node: unknown, act: (job: Job) => Promise<void>): Promise<void> {
  const job =
    typeof node === "object" && node !== null && "job" in node
      ? (node as JobNode & { job: Job }).job
      : undefined;
  if (!job) {
    await commands.executeCommand("mendlog.jobs.focus");
    void window.showInformationMessage(l10n.t("Choose a job in the Jobs view and use its menu."));
    return;
  }
  try {
    await act(job);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    void window.showErrorMessage(l10n.t("{0} could not be opened: {1}", job.job ?? nameOf(job.uri), why));
  }
}
