// The view beside the log: which parts to suspect, what to read next, what is still unproven.
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
import { SUSPECTS } from "../../../server/src/protocol/custom-requests/suspects";
import { knowledgeKind } from "../../../server/src/workspace/host";
import { holdsLog } from "../in-log";
import type { Feature } from "../mendlog";
import { shareWords } from "../share";
import { nodesOf, type SuspectNode, type SuspectsWords } from "./nodes";

const VIEW = "mendlog.suspects";
const SHOW = "mendlog.showSuspects";
const REFRESH = "mendlog.refreshSuspects";
/** Milliseconds after the last key: nobody reads the view while typing. */
const QUIET = 400;
/** Milliseconds after which a view without an answer counts as empty. */
const PATIENCE = 10_000;

/** Asks while the view is in sight and about the log in front, or the one that was in front of its board file. */
export const suspects: Feature = (mendlog) => {
  const changed = new EventEmitter<void>();
  const words = makeWords();
  let nodes: readonly SuspectNode[] = [];
  let log: TextDocument | undefined;
  /** The log that there was an answer about, whatever it said. */
  let answered: TextDocument | undefined;
  /** What waits for the first answer. */
  const held: (() => void)[] = [];
  let waiting: NodeJS.Timeout | undefined;
  let asking: CancellationTokenSource | undefined;

  const provider: TreeDataProvider<SuspectNode> = {
    onDidChangeTreeData: changed.event,
    getChildren: async (node) => {
      // A view that turns out to be empty gives the keyboard away and does not take it back when rows come.
      if (!node && log && answered !== log) await firstAnswer();
      return [...(node ? node.children : nodes)];
    },
    getTreeItem: itemOf,
  };
  const view = window.createTreeView(VIEW, { treeDataProvider: provider, showCollapseAll: true });

  const show = (now: readonly SuspectNode[], message = "") => {
    // Nothing at all leaves the room to the view's words of welcome.
    // Set again it would take the keyboard from a view whose rows are still to come.
    if (message !== (view.message ?? "")) view.message = message;
    view.description = log ? nameOf(log) : "";
    if (JSON.stringify(now) !== JSON.stringify(nodes)) {
      nodes = now;
      changed.fire();
    }
    release();
  };
  const stop = () => {
    clearTimeout(waiting);
    asking?.cancel();
  };
  const release = () => {
    for (const go of held.splice(0)) go();
  };
  /** Waits until it is known what to show of the log in front. */
  const firstAnswer = () =>
    new Promise<void>((go) => {
      held.push(go);
      setTimeout(go, PATIENCE);
      void ask(true);
    });
  const ask = async (seen = view.visible) => {
    stop();
    const document = log;
    if (!document || !seen) return;
    const cancel = new CancellationTokenSource();
    asking = cancel;
    const { version } = document;
    await mendlog.start();
    const answer = await mendlog.request(SUSPECTS, { uri: document.uri.toString() }, cancel.token);
    const overtaken = cancel.token.isCancellationRequested;
    cancel.dispose();
    if (overtaken || asking !== cancel || document !== log) return;
    if (!answer) release();
    if (answer?.version !== version) return;
    answered = document;
    const none = answer.suspects.length === 0 ? answer.notes.at(-1) : undefined;
    show(nodesOf(answer, words), answer.nothing ?? none);
  };
  const soon = () => {
    stop();
    waiting = setTimeout(() => void ask(), QUIET);
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
    commands.registerCommand(REFRESH, async () => {
      if (!log) {
        void window.showInformationMessage(l10n.t("Open a repair log to see its suspects."));
        return;
      }
      if (!view.visible) await commands.executeCommand(`${VIEW}.focus`, { preserveFocus: true });
      await ask();
    }),
    commands.registerCommand(SHOW, () => commands.executeCommand(`${VIEW}.focus`)),
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
    new Disposable(() => {
      stop();
      release();
    }),
  );
};

const nameOf = ({ uri }: TextDocument): string => uri.path.slice(uri.path.lastIndexOf("/") + 1);

function itemOf(node: SuspectNode): TreeItem {
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

const makeWords = (): SuspectsWords => ({
  nextOne: (minutes) => l10n.t("next, {0}", minutes),
  boardFile: (name) => l10n.t("{0} in the board file", name),
  minutes: (minutes) =>
    minutes < 1 ? l10n.t("about {0} s", Math.round(60 * minutes)) : l10n.t("about {0} min", minutes),
  or: (action) => l10n.t("Or: {0}", action),
  suspect: (name, share) => l10n.t("{1}: {0}", name, shareWords(share)),
  spokenSuspect: (name, share, title) => l10n.t("Suspect {0}, {1}. {2}", name, shareWords(share), title),
  spokenCaution: (text) => l10n.t("Caution: {0}", text),
  spokenPlace: (text, line) => l10n.t("{0} Goes to line {1}.", text, line),
  speaksFor: (count) => l10n.t("Speaks for it: {0}", count),
  speaksAgainst: (count) => l10n.t("Speaks against it: {0}", count),
  beforehand: (count) => l10n.t("Background: {0}", count),
  notRead: (count) => l10n.t("Not yet read: {0}", count),
  unproven: (count, all) => l10n.t("Still unproven: {0} of {1}", count, all),
  failed: l10n.t("failed"),
  noReading: l10n.t("No further reading tells the suspects apart"),
  limits: l10n.t("How far this goes"),
});
