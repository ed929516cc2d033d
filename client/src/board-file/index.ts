import {
  commands,
  Disposable,
  l10n,
  ProgressLocation,
  type TextDocument,
  Uri,
  window,
  workspace,
} from "vscode";
import { WRITE_BOARD_FILE } from "../../../server/src/protocol/command-names";
import {
  BOARD_DRAFT,
  type CompletedBoardFile,
  type NewBoardFile,
  type WireBoardDraft,
} from "../../../server/src/protocol/custom-requests/board-file";
import { applyPlacedEdits, openNew } from "../import-board/target";
import { holdsLog } from "../in-log";
import type { Feature, Mendlog } from "../mendlog";
import { toEditorRange } from "../range";
import { readOnlyWay, tookEdit } from "../took-edit";

/** The command that writes a board file from the logs of a board, or adds to the one that is there. */
export const boardFile: Feature = (mendlog) =>
  Disposable.from(commands.registerCommand(WRITE_BOARD_FILE, (of: unknown) => start(mendlog, of)));

async function start(mendlog: Mendlog, of: unknown): Promise<void> {
  const log = logMeant(of);
  if (!log) {
    void window.showWarningMessage(l10n.t("Open a repair log of the board, then try again."));
    return;
  }
  await mendlog.start();
  const made = await draftOf(mendlog, log);
  if (made === "cancelled") return;
  if (!made || made.kind === "needs-name") {
    void window.showErrorMessage(
      l10n.t("The checker did not answer, so no board file was written. Its messages say why."),
    );
    return;
  }
  if (made.kind === "refused") {
    void window.showErrorMessage(made.reason);
    return;
  }
  await name(log, made);
  if (made.kind === "new") {
    await openNew(made.id, made.text, folderOf(made));
    tell(mendlog, made, []);
  } else {
    const document = await workspace.openTextDocument(Uri.parse(made.uri, true));
    // What the edits are of is the text that the server has; one that was typed since is another.
    const isSame = document.getText() === made.before.replace(/^\uFEFF/, "");
    if (await applyPlacedEdits(document, isSame ? document.version : -1, made.edits))
      tell(mendlog, made, made.notes);
  }
}

/** The log that a quick fix is of, else the one being looked at. */
function logMeant(named: unknown): TextDocument | undefined {
  const uri = typeof named === "string" ? named : window.activeTextEditor?.document.uri.toString();
  const open = workspace.textDocuments.find((document) => document.uri.toString() === uri);
  return open && holdsLog(open) ? open : undefined;
}

async function draftOf(mendlog: Mendlog, log: TextDocument): Promise<WireBoardDraft | "cancelled" | null> {
  const uri = log.uri.toString();
  const made = await ask(mendlog, { uri });
  if (made === "cancelled" || made?.kind !== "needs-name") return made;
  const name = await askName();
  return name === undefined ? "cancelled" : ask(mendlog, { uri, name });
}

const askName = (): Thenable<string | undefined> =>
  window.showInputBox({
    title: l10n.t("What is the board called?"),
    prompt: l10n.t("Any name works. Logs that name the same board share what they say about it."),
    ignoreFocusOut: true,
    validateInput: (typed) =>
      /\p{L}|\p{N}/u.test(typed) ? undefined : l10n.t("A name needs a letter or a digit."),
  });

function ask(
  mendlog: Mendlog,
  params: { readonly uri: string; readonly name?: string },
): Thenable<WireBoardDraft | "cancelled" | null> {
  return window.withProgress(
    { location: ProgressLocation.Window, title: l10n.t("Reading the logs of the board") },
    async () => mendlog.request(BOARD_DRAFT, params),
  );
}

/** Names the board in the log, so that the file speaks of it. */
async function name(log: TextDocument, { naming }: NewBoardFile | CompletedBoardFile): Promise<void> {
  if (!naming) return;
  const editor = await window.showTextDocument(log);
  const { range, newText } = naming.edit;
  const outcome =
    log.version === naming.version
      ? await tookEdit(log, () => editor.edit((builder) => builder.replace(toEditorRange(range), newText)))
      : "outrun";
  if (outcome === "taken") return;
  const why = outcome === "refused" ? readOnlyWay() : "";
  void window.showWarningMessage(
    l10n.t(
      "The log does not name its board yet. Write this into its front matter: {0} {1}",
      newText.trim(),
      why,
    ),
  );
}

/** A file system that is no disk's has no place for a file that is not saved. */
function folderOf({ place }: NewBoardFile): Uri | "none" | undefined {
  if (place === undefined) return "none";
  const folder = Uri.joinPath(Uri.parse(place, true), "..");
  return folder.scheme === "file" || folder.scheme === "vscode-remote" ? folder : "none";
}

function tell(mendlog: Mendlog, made: NewBoardFile | CompletedBoardFile, notes: readonly string[]): void {
  const { told, logs, id } = made;
  if (made.kind === "completes" && made.edits.length === 0 && notes.length === 0) {
    void window.showInformationMessage(l10n.t("The board file already has everything in these logs."));
    return;
  }
  const message =
    logs === 1
      ? l10n.t("{0}: {1} from one log. Check it, then save it.", id, told)
      : l10n.t("{0}: {1} from {2} logs. Check it, then save it.", id, told, logs);
  if (notes.length === 0) {
    void window.showInformationMessage(message);
    return;
  }
  mendlog.log.info(`${id}\n${notes.join("\n")}`);
  const show = l10n.t("Show what stayed as it was");
  void window
    .showInformationMessage(message, show)
    .then((picked) => (picked === show ? mendlog.log.show() : undefined));
}
