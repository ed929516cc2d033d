// The jobs as a tree: a branch for each stage, a leaf for each log.
import {
  type Command,
  EventEmitter,
  l10n,
  MarkdownString,
  ThemeColor,
  ThemeIcon,
  type TreeDataProvider,
  TreeItem,
  TreeItemCollapsibleState,
  Uri,
} from "vscode";
import type { Job } from "../../../server/src/protocol/custom-requests/jobs";
import { daysWords, stageWords, unprovenWords } from "./words";

/** In the order of the job; what cannot be read comes first, because it has to be repaired. */
const STAGES: readonly Job["stage"][] = [
  undefined,
  "received",
  "diagnosing",
  "waiting-for-approval",
  "waiting-for-parts",
  "repairing",
  "proving",
  "returned",
  "scrapped",
];
const GONE: ReadonlySet<Job["stage"]> = new Set(["returned", "scrapped"]);

export type JobNode =
  | { readonly stage: Job["stage"]; readonly jobs: readonly Job[] }
  | { readonly job: Job; readonly stage?: never };

export class JobTree implements TreeDataProvider<JobNode> {
  readonly #changed = new EventEmitter<void>();
  readonly onDidChangeTreeData = this.#changed.event;
  readonly #ask: () => Promise<readonly Job[]>;

  constructor(ask: () => Promise<readonly Job[]>) {
    this.#ask = ask;
  }

  refresh(): void {
    this.#changed.fire();
  }

  async getChildren(node?: JobNode): Promise<JobNode[]> {
    if (node) return "jobs" in node ? node.jobs.map((job) => ({ job })) : [];
    const all = await this.#ask();
    return STAGES.map((stage) => ({ stage, jobs: all.filter((job) => job.stage === stage) })).filter(
      ({ jobs }) => jobs.length > 0,
    );
  }

  getTreeItem(node: JobNode): TreeItem {
    return "job" in node ? leaf(node.job) : branch(node.stage, node.jobs);
  }

  dispose(): void {
    this.#changed.dispose();
  }
}

function branch(stage: Job["stage"], jobs: readonly Job[]): TreeItem {
  const item = new TreeItem(
    stageWords(stage),
    GONE.has(stage) ? TreeItemCollapsibleState.Collapsed : TreeItemCollapsibleState.Expanded,
  );
  // Branches keep whether they are open while jobs come and go.
  item.id = stage ?? "unknown";
  item.description = String(jobs.length);
  item.contextValue = "stage";
  item.accessibilityInformation = {
    label:
      jobs.length === 1
        ? l10n.t("{0}, 1 job", stageWords(stage))
        : l10n.t("{0}, {1} jobs", stageWords(stage), jobs.length),
  };
  return item;
}

function leaf(job: Job): TreeItem {
  const uri = Uri.parse(job.uri);
  const file = uri.path.slice(uri.path.lastIndexOf("/") + 1);
  const item = new TreeItem(job.job ?? job.title ?? file);
  item.id = job.uri;
  const facts = factsIn(job);
  item.description = [job.owner, job.board, ...facts].filter(Boolean).join(" · ");
  item.tooltip = tooltip(job, file, facts);
  item.iconPath = iconOf(job);
  item.contextValue = job.boardUri === undefined ? "job" : "job.board";
  item.command = openCommand(uri);
  item.accessibilityInformation = {
    label: [item.label, stageWords(job.stage), job.board, job.owner, ...facts, job.title]
      .filter(Boolean)
      .join(", "),
  };
  return item;
}

const openCommand = (uri: Uri): Command => ({
  command: "vscode.open",
  title: l10n.t("Open the log"),
  arguments: [uri],
});

/** What there is to say of it at a glance, the most urgent first. */
function factsIn({ old, days, stage, comebackOf, facts, returned }: Job): string[] {
  const order = (facts?.toOrder ?? []).reduce((sum, { pieces }) => sum + pieces, 0);
  return [
    ...(comebackOf === undefined ? [] : [l10n.t("comeback")]),
    ...(GONE.has(stage)
      ? returned === undefined
        ? []
        : [returned]
      : days === undefined
        ? []
        : [daysWords(days), ...(old ? [l10n.t("old")] : [])]),
    ...(order > 0 ? [l10n.t("{0} to order", order)] : []),
    ...(facts && facts.failed > 0 ? [l10n.t("{0} failed", facts.failed)] : []),
    ...(facts && facts.unproven > 0 ? [unprovenWords(facts.unproven)] : []),
  ];
}

/** The words beside it say the same. */
function iconOf({ stage, old, comebackOf }: Job): ThemeIcon {
  if (stage === undefined) return new ThemeIcon("warning", new ThemeColor("list.warningForeground"));
  if (old) return new ThemeIcon("clock", new ThemeColor("list.warningForeground"));
  if (comebackOf !== undefined) return new ThemeIcon("history");
  return new ThemeIcon(stage === "returned" ? "check" : stage === "scrapped" ? "trash" : "tools");
}

function tooltip(job: Job, file: string, facts: readonly string[]): MarkdownString {
  const text = new MarkdownString();
  // What stands in a log is nobody's Markdown here.
  const line = (label: string, value: string | undefined) => {
    if (value !== undefined) text.appendText(`${label}: ${value}`).appendMarkdown("  \n");
  };
  text
    .appendMarkdown("**")
    .appendText(job.title ?? file)
    .appendMarkdown("**\n\n");
  if (facts.length > 0) text.appendText(facts.join(" · ")).appendMarkdown("\n\n");
  line(l10n.t("Stage"), stageWords(job.stage));
  line(l10n.t("Board"), [job.board, job.serial].filter(Boolean).join(" ") || undefined);
  line(l10n.t("Owner"), job.owner);
  line(l10n.t("Received"), job.received);
  line(l10n.t("Returned"), job.returned);
  line(l10n.t("Comeback of"), job.comebackOf);
  const order = job.facts?.toOrder ?? [];
  if (order.length > 0)
    line(l10n.t("To order"), order.map(({ part, pieces }) => `${pieces} x ${part}`).join(", "));
  line(l10n.t("Log"), file);
  return text;
}
