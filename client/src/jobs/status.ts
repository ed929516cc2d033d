// The line below the editor: where the job of the log in front stands.

import {
  CancellationTokenSource,
  commands,
  Disposable,
  l10n,
  MarkdownString,
  Range,
  Selection,
  StatusBarAlignment,
  type TextEditor,
  TextEditorRevealType,
  window,
  workspace,
} from "vscode";
import { defined } from "../../../server/src/base/defined";
import { JOB_STATUS, JOBS_CHANGED } from "../../../server/src/protocol/custom-requests/jobs";
import { holdsLog } from "../in-log";
import type { Mendlog } from "../mendlog";
import { oldAfterDays } from "./setting";
import { daysWords, stageWords, todayHere, unprovenWords } from "./words";

/** Milliseconds of rest in typing before it is asked again. */
const REST = 500;

export function showStatus(mendlog: Mendlog): Disposable {
  const item = window.createStatusBarItem("mendlog.job", StatusBarAlignment.Left, -10);
  item.name = l10n.t("Mendlog: job in the log");
  item.command = "mendlog.showProving";
  let running: CancellationTokenSource | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** The log that is told of, and the line of its proving table. */
  let shown: { readonly uri: string; readonly proving?: number } | undefined;

  const hide = () => {
    shown = undefined;
    item.hide();
  };
  const ask = async (editor: TextEditor | undefined): Promise<void> => {
    running?.cancel();
    if (!editor || !holdsLog(editor.document)) return hide();
    const uri = editor.document.uri.toString();
    if (shown?.uri !== uri) hide();
    if (!mendlog.started) return;
    const own = new CancellationTokenSource();
    running = own;
    const params = { uri, today: todayHere(), oldAfterDays: oldAfterDays() };
    const status = await mendlog.request(JOB_STATUS, params, own.token);
    if (own.token.isCancellationRequested || window.activeTextEditor?.document.uri.toString() !== uri) return;
    if (!status) return hide();
    const { stage, days, old, unproven, failed, toProve, next, proving } = status;
    const counted =
      failed > 0
        ? l10n.t("{0} failed", failed)
        : unproven > 0
          ? unprovenWords(unproven)
          : toProve > 0
            ? l10n.t("all proven")
            : undefined;
    const words = [stageWords(stage), ...(counted === undefined ? [] : [counted])];
    item.text = `$(${failed > 0 || old ? "warning" : "checklist"}) ${words.join(", ")}`;
    const facts = [
      ...(days === undefined ? [] : [old ? l10n.t("{0}, old", daysWords(days)) : daysWords(days)]),
      ...(toProve > 0 ? [l10n.t("{0} of {1} items of the proving list open", unproven, toProve)] : []),
      ...(next === undefined ? [] : [l10n.t("Next: {0}", next)]),
    ];
    const does =
      proving === undefined ? l10n.t("Click shows the jobs.") : l10n.t("Click goes to the proving table.");
    item.tooltip = tooltip(words.join(", "), [...facts, does]);
    item.accessibilityInformation = { label: [...words, ...facts].join(". "), role: "button" };
    shown = defined({ uri, proving });
    item.show();
  };
  const soon = () => {
    clearTimeout(timer);
    timer = setTimeout(() => void ask(window.activeTextEditor), REST);
  };

  void ask(window.activeTextEditor);
  return Disposable.from(
    item,
    window.onDidChangeActiveTextEditor(ask),
    workspace.onDidChangeTextDocument(({ document }) => {
      if (document === window.activeTextEditor?.document && holdsLog(document)) soon();
      else if (document === window.activeTextEditor?.document && shown) hide();
    }),
    mendlog.onDidStart(() => ask(window.activeTextEditor)),
    mendlog.onNotice(JOBS_CHANGED, soon),
    workspace.onDidChangeConfiguration((event) => {
      if (event.affectsConfiguration("mendlog.jobs")) soon();
    }),
    commands.registerCommand("mendlog.showProving", async () => {
      const editor = window.activeTextEditor;
      if (shown?.proving === undefined || editor?.document.uri.toString() !== shown.uri) {
        await commands.executeCommand("mendlog.jobs.focus");
        return;
      }
      const line = editor.document.lineAt(Math.min(shown.proving, editor.document.lineCount - 1));
      editor.selection = new Selection(line.range.start, line.range.start);
      editor.revealRange(new Range(line.range.start, line.range.start), TextEditorRevealType.AtTop);
      await window.showTextDocument(editor.document, { viewColumn: editor.viewColumn ?? 1 });
    }),
    new Disposable(() => {
      clearTimeout(timer);
      running?.cancel();
    }),
  );
}

function tooltip(title: string, lines: readonly string[]): MarkdownString {
  const text = new MarkdownString();
  text.appendMarkdown("**").appendText(title).appendMarkdown("**");
  for (const line of lines) text.appendMarkdown("\n\n").appendText(line);
  return text;
}
