// The view beside the log: whom to suspect, what to read next, what is still unproven.
import {
  CancellationTokenSource,
  commands,
  Disposable,
  EventEmitter,
  l10n,
  languages,
  Range,
  type TextDocument,
  type TextEditor,
  ThemeIcon,
  type TreeDataProvider,
  TreeItem,
  TreeItemCollapsibleState,
  Uri,
  window,
  workspace,
} from "vscode";
import { SUSPECTS } from "../../../server/src/protocol/own/suspects";
import { knowledgeKind } from "../../../server/src/workspace/host";
import { holdsLog } from "../in-log";
import type { Feature } from "../mendlog";
import { type Node, nodesOf, type Words } from "./nodes";

const VIEW = "mendlog.suspects";
const REFRESH = "mendlog.refreshSuspects";
/** Milliseconds after the last key: nobody reads the view while typing. */
const QUIET = 400;

/** Asks while the view is in sight and about the log in front, or the one that was in front of its board file. */
export const suspects: Feature = (mendlog) => {
  const changed = new EventEmitter<void>();
  const words = makeWords();
  let nodes: readonly Node[] = [];
  let log: TextDocument | undefined;
  let waiting: NodeJS.Timeout | undefined;
  let asking: CancellationTokenSource | undefined;

  const provider: TreeDataProvider<Node> = {
    onDidChangeTreeData: changed.event,
    getChildren: (node) => [...(node ? node.children : nodes)],
    getTreeItem: itemOf,
  };
  const view = window.createTreeView(VIEW, { treeDataProvider: provider, showCollapseAll: true });

  const show = (now: readonly Node[], message = "") => {
    // Nothing at all leaves the room to the view's words of welcome.
    view.message = message;
    view.description = log ? nameOf(log) : "";
    if (JSON.stringify(now) === JSON.stringify(nodes)) return;
    nodes = now;
    changed.fire();
  };
  const stop = () => {
    clearTimeout(waiting);
    asking?.cancel();
  };
  const ask = async () => {
    stop();
    const document = log;
    if (!document || !view.visible) return;
    const cancel = new CancellationTokenSource();
    asking = cancel;
    const { version } = document;
    await mendlog.start();
    const answer = await mendlog.request(SUSPECTS, { uri: document.uri.toString() }, cancel.token);
    cancel.dispose();
    if (asking !== cancel || document !== log || answer?.version !== version) return;
    const none = answer.suspects.length === 0 ? answer.notes.at(-1) : undefined;
    show(nodesOf(answer, words), answer.nothing ?? none);
  };
  const soon = () => {
    stop();
    waiting = setTimeout(ask, QUIET);
  };
  const follow = (editor: TextEditor | undefined) => {
    if (
      !editor ||
      knowledgeKind(editor.document.uri.path) !== undefined ||
      editor.document.uri.scheme === "output"
    )
      return;
    const now = holdsLog(editor.document) ? editor.document : undefined;
    if (now === log) return;
    log = now;
    show([]);
    void ask();
  };
  follow(window.activeTextEditor);

  return Disposable.from(
    view,
    changed,
    view.onDidChangeVisibility(({ visible }) => (visible ? ask() : stop())),
    commands.registerCommand(REFRESH, ask),
    mendlog.onDidStart(soon),
    window.onDidChangeActiveTextEditor(follow),
    workspace.onDidChangeTextDocument(({ document }) => {
      if (document === log && !holdsLog(document)) {
        log = undefined;
        stop();
        show([]);
      } else if (document === log || knowledgeKind(document.uri.path) !== undefined) soon();
      // A file may become a log while it is being typed.
      else if (document === window.activeTextEditor?.document) follow(window.activeTextEditor);
    }),
    workspace.onDidCloseTextDocument((document) => {
      if (document !== log) return;
      log = undefined;
      stop();
      show([]);
    }),
    // Other files, other jobs and settings show in the findings.
    languages.onDidChangeDiagnostics(({ uris }) => {
      if (log && uris.some((uri) => uri.toString() === log?.uri.toString())) soon();
    }),
    new Disposable(stop),
  );
};

const nameOf = ({ uri }: TextDocument): string => uri.path.slice(uri.path.lastIndexOf("/") + 1);

function itemOf(node: Node): TreeItem {
  const { id, label, description, tooltip, icon, spoken, place, children, unfolded } = node;
  const fold =
    children.length === 0
      ? TreeItemCollapsibleState.None
      : unfolded
        ? TreeItemCollapsibleState.Expanded
        : TreeItemCollapsibleState.Collapsed;
  const item = new TreeItem(label, fold);
  item.id = id;
  item.iconPath = new ThemeIcon(icon);
  if (description !== undefined) item.description = description;
  if (tooltip !== undefined) item.tooltip = tooltip;
  item.accessibilityInformation = { label: spoken ?? [label, description].filter(Boolean).join(", ") };
  if (place) {
    const { line, character } = place;
    item.command = {
      command: "vscode.open",
      title: l10n.t("Go there"),
      arguments: [Uri.parse(place.uri), { selection: new Range(line, character, line, character) }],
    };
  }
  return item;
}

const makeWords = (): Words => ({
  next: (action) => l10n.t("Next: {0}", action),
  boardFile: (name) => l10n.t("{0} in the board file", name),
  minutes: (minutes) =>
    minutes < 1 ? l10n.t("about {0} s", Math.round(60 * minutes)) : l10n.t("about {0} min", minutes),
  or: (action) => l10n.t("Or: {0}", action),
  suspect: (name, share) => l10n.t("{1}: {0}", name, share),
  spokenSuspect: (name, share, title) => l10n.t("Suspect {0}, {1}. {2}", name, share, title),
  speaksFor: (count) => l10n.t("Speaks for it: {0}", count),
  speaksAgainst: (count) => l10n.t("Speaks against it: {0}", count),
  beforehand: (count) => l10n.t("Known beforehand: {0}", count),
  notRead: (count) => l10n.t("Not yet read: {0}", count),
  unproven: (count, all) => l10n.t("Still unproven: {0} of {1}", count, all),
  failed: l10n.t("failed"),
  noReading: l10n.t("No further reading tells the suspects apart"),
  limits: l10n.t("How far this goes"),
});
