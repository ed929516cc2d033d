import {
  commands,
  Disposable,
  FileType,
  l10n,
  Selection,
  type TextDocument,
  Uri,
  window,
  workspace,
} from "vscode";
import { NEW_LOG, NEW_LOG_CHOICES, type NewLog } from "../../../server/src/protocol/custom-requests/new-log";
import { todayHere } from "../jobs/words";
import type { Feature, Mendlog } from "../mendlog";
import { writeFile } from "../write-file";
import { askFacts } from "./questions";

/** The command that starts a log, from the palette, from the Jobs view and from a folder in the explorer. */
export const newLog: Feature = (mendlog) =>
  Disposable.from(
    commands.registerCommand("mendlog.newLog", (folder: unknown) =>
      start(mendlog, folder instanceof Uri ? folder : undefined),
    ),
  );

async function start(mendlog: Mendlog, asked: Uri | undefined): Promise<void> {
  await mendlog.start();
  const folder = asked && (await isFolder(asked)) ? asked : undefined;
  const where = folder ? { folder: folder.toString() } : {};
  const today = todayHere();
  const choices = await mendlog.request(NEW_LOG_CHOICES, { today });
  if (!choices) return tellNoServer();
  const facts = await askFacts(choices, today, mendlog);
  if (!facts) return;
  const log = await mendlog.request(NEW_LOG, { facts, ...where });
  if (!log) return tellNoServer();
  const target = await targetFor(log);
  if (target === "cancelled") return;
  if (target) await write(log, target);
  else await openUnsaved(log.text);
}

const tellNoServer = () =>
  void window.showErrorMessage(
    l10n.t("The checker did not answer, so no log was started. Its messages say why."),
  );

async function isFolder(uri: Uri): Promise<boolean> {
  try {
    return ((await workspace.fs.stat(uri)).type & FileType.Directory) !== 0;
  } catch {
    return false;
  }
}

/** Asks only where the workspace does not tell. Undefined where there is no folder to put a file into. */
async function targetFor({ uri, sure, name }: NewLog): Promise<Uri | "cancelled" | undefined> {
  const [folder] = workspace.workspaceFolders ?? [];
  if (uri !== undefined && sure) return Uri.parse(uri, true);
  if (!folder) return undefined;
  const proposed = uri === undefined ? Uri.joinPath(folder.uri, name) : Uri.parse(uri, true);
  return askWhere(proposed);
}

async function askWhere(proposed: Uri): Promise<Uri | "cancelled"> {
  const target = await window.showSaveDialog({
    defaultUri: proposed,
    filters: { Markdown: ["md"] },
    title: l10n.t("Where should the new log be saved?"),
  });
  return target ?? "cancelled";
}

/** Never over a file that is there; what cannot be written is shown unsaved, so that no answer is lost. */
async function write(log: NewLog, target: Uri): Promise<void> {
  const why = await writeFile(target, log.text, false);
  if (why !== undefined) {
    void window.showWarningMessage(l10n.t("{0} The new log is not saved yet.", why));
    return openUnsaved(log.text);
  }
  await show(await workspace.openTextDocument(target));
}

async function openUnsaved(content: string): Promise<void> {
  await show(await workspace.openTextDocument({ language: "markdown", content }));
}

/** With the cursor where the front matter ends: what was not asked for is completed there, on lines of its own. */
async function show(document: TextDocument): Promise<void> {
  const lines = document.getText().split(/\r?\n/);
  const end = document.lineAt(Math.max(0, lines.indexOf("---", 1) - 1)).range.end;
  await window.showTextDocument(document, { selection: new Selection(end, end) });
}
