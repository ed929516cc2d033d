import {
  l10n,
  type QuickPickItem,
  QuickPickItemKind,
  type TextDocument,
  type TextEditor,
  Uri,
  window,
  workspace,
} from "vscode";
import type { PlacedEdit } from "../../../server/src/protocol/custom-requests/typing";
import { toEditorRange } from "../range";
import { sayReadOnly, tookEdit } from "../took-edit";
import { fileNameOf } from "./read";

const BOARD_FILES = "**/*.board.{yaml,yml}";
const NOT_IN = "**/{node_modules,dist,.*}/**";
/** More are not offered. */
const MOST_OFFERED = 500;

interface Item extends QuickPickItem {
  readonly uri?: Uri;
}

/** Asks which board file is to be completed: its document, "new" for none, undefined where nothing was chosen. */
export async function pickTarget(): Promise<TextDocument | "new" | undefined> {
  const found = await workspace.findFiles(BOARD_FILES, NOT_IN, MOST_OFFERED);
  if (found.length === 0) return "new";
  const inSight = window.activeTextEditor?.document.uri;
  const boards = found
    .toSorted((a, b) => a.path.localeCompare(b.path))
    .map((uri): Item => ({ label: fileNameOf(uri), description: workspace.asRelativePath(uri), uri }));
  const own = boards.filter(({ uri }) => uri?.toString() === inSight?.toString());
  const made: Item = { label: l10n.t("A new board file") };
  const title: Item = { label: l10n.t("Complete a board file"), kind: QuickPickItemKind.Separator };
  const others = boards.filter((item) => !own.includes(item));
  const items = own.length > 0 ? [...own, made, title, ...others] : [made, title, ...others];
  const picked = await window.showQuickPick(items, {
    title: l10n.t("Import into which board file?"),
    placeHolder: l10n.t("Nothing already in a board file is changed"),
    matchOnDescription: true,
  });
  if (!picked) return undefined;
  return picked.uri ? workspace.openTextDocument(picked.uri) : "new";
}

/** Makes the edits in the document as one step to undo, and says whether they are in it. */
export async function applyPlacedEdits(
  document: TextDocument,
  version: number,
  edits: readonly PlacedEdit[],
): Promise<boolean> {
  const editor = await window.showTextDocument(document);
  if (edits.length === 0) return true;
  if (document.version !== version) return changedMeanwhile();
  const outcome = await tookEdit(document, () => editEach(editor, edits));
  if (outcome === "taken") return true;
  if (outcome !== "refused") return changedMeanwhile();
  sayReadOnly();
  return false;
}

const editEach = (editor: TextEditor, edits: readonly PlacedEdit[]): Thenable<boolean> =>
  editor.edit((builder) => {
    for (const { range, newText } of edits) builder.replace(toEditorRange(range), newText);
  });

function changedMeanwhile(): false {
  void window.showWarningMessage(
    l10n.t("The board file has changed since, so nothing was written. Import again."),
  );
  return false;
}

/**
 * Shows the text as a file that is not saved yet; where there is a folder, with the place it would have.
 * @param into the folder, where that is known; "none" where there is none to name
 */
export async function openNew(id: string, text: string, into?: Uri | "none"): Promise<void> {
  const folder = into ?? (await folderForBoards());
  if (!folder || folder === "none") {
    await window.showTextDocument(await workspace.openTextDocument({ language: "yaml", content: text }));
    return;
  }
  const document = await workspace.openTextDocument(await freePlace(folder, id));
  const editor = await window.showTextDocument(document);
  await editor.edit((builder) => builder.insert(document.positionAt(0), text));
}

/** Beside the other board files, else in the first folder. */
async function folderForBoards(): Promise<Uri | undefined> {
  const [board] = await workspace.findFiles(BOARD_FILES, NOT_IN, 1);
  return board ? Uri.joinPath(board, "..") : workspace.workspaceFolders?.[0]?.uri;
}

async function freePlace(folder: Uri, id: string): Promise<Uri> {
  for (let n = 1; ; n++) {
    const file = Uri.joinPath(folder, `${id}${n === 1 ? "" : `-${n}`}.board.yaml`);
    const unsaved = file.with({ scheme: "untitled" });
    const isOpen = workspace.textDocuments.some(({ uri }) => uri.toString() === unsaved.toString());
    if (!isOpen && !(await exists(file))) return unsaved;
  }
}

async function exists(uri: Uri): Promise<boolean> {
  try {
    await workspace.fs.stat(uri);
    return true;
  } catch {
    return false;
  }
}
