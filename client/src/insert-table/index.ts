import {
  commands,
  Disposable,
  l10n,
  type QuickPickItem,
  QuickPickItemKind,
  SnippetString,
  type TextEditor,
  TextEditorRevealType,
  window,
} from "vscode";
import {
  INSERT_TABLE,
  TABLE_OFFERS,
  type WireTableOffer,
} from "../../../server/src/protocol/custom-requests/insert-table";
import { holdsLog } from "../in-log";
import type { Feature, Mendlog } from "../mendlog";
import { toEditorRange } from "../range";
import { isNeverWritten, sayReadOnly, tookEdit } from "../took-edit";
import { isAdvancing } from "../typing/advance";
import { tableBegins } from "../typing/in-table";

const COMMAND = "mendlog.insertTable";
/** What the palette has in its place in a read-only log: nobody is to choose a table first and be refused then. */
const NOT_HERE = "mendlog.insertTableReadOnly";

/** The command that puts a table in; where it cannot be put, it says so. */
export const insertTableCommand: Feature = (mendlog) =>
  Disposable.from(
    commands.registerCommand(COMMAND, () => insert(mendlog)),
    commands.registerCommand(NOT_HERE, () =>
      // By a key of one's own it comes from anywhere.
      logInFront() ? sayReadOnly() : sayNoLog(),
    ),
  );

/**
 * Asks which table is wanted, of the board's or of a chip by its number, and puts it at the cursor, the first reading or
 * the designator ready to be typed.
 */
async function insert(mendlog: Mendlog): Promise<void> {
  const editor = logInFront();
  if (!editor) return sayNoLog();
  if (isNeverWritten(editor.document)) return sayReadOnly();
  await mendlog.start();
  const uri = editor.document.uri.toString();
  const at = editor.selection.active;
  const found = await mendlog.request(TABLE_OFFERS, {
    uri,
    position: { line: at.line, character: at.character },
  });
  if (!found) return noAnswer();
  const picked = await window.showQuickPick(itemsOf(found.offers), {
    title: l10n.t("Insert a table of readings"),
    placeHolder: l10n.t(
      "What do you want to measure? Type a designator or the number on the chip, such as 7404",
    ),
    matchOnDescription: true,
  });
  if (picked?.id === undefined) return;
  const position = editor.selection.active;
  const answer = await mendlog.request(INSERT_TABLE, {
    uri,
    id: picked.id,
    position: { line: position.line, character: position.character },
  });
  if (!answer) return noAnswer();
  if ("reason" in answer) {
    void window.showWarningMessage(answer.reason);
    return;
  }
  // Typed in meanwhile: the place is no longer that of the answer.
  if (answer.version !== editor.document.version) return changedMeanwhile();
  const shown = await window.showTextDocument(editor.document, editor.viewColumn);
  tableBegins.fire(answer.byDigits && isAdvancing(shown.document));
  const outcome = await tookEdit(shown.document, () =>
    shown.insertSnippet(new SnippetString(answer.snippet), toEditorRange(answer.range)),
  );
  if (outcome === "refused") return sayReadOnly();
  if (outcome !== "taken") return changedMeanwhile();
  shown.revealRange(shown.selection, TextEditorRevealType.InCenterIfOutsideViewport);
}

function logInFront(): TextEditor | undefined {
  const editor = window.activeTextEditor;
  return editor && holdsLog(editor.document) ? editor : undefined;
}

const sayNoLog = () =>
  void window.showInformationMessage(l10n.t("Open the repair log for the table, then try again."));

const changedMeanwhile = () =>
  void window.showWarningMessage(l10n.t("The log has changed since. Ask for the table again."));

const noAnswer = () =>
  void window.showWarningMessage(
    l10n.t("The checker did not answer, so no table was inserted. Its messages say why."),
  );

interface Item extends QuickPickItem {
  readonly id?: string;
}

/** The offers under a title for each kind. */
function itemsOf(offers: readonly WireTableOffer[]): Item[] {
  const titles: Readonly<Record<WireTableOffer["kind"], string>> = {
    rails: l10n.t("Rails"),
    matrix: l10n.t("Matrices"),
    circuit: l10n.t("Chips of a circuit"),
    chip: l10n.t("Single parts"),
    device: l10n.t("Chips by their number"),
  };
  return offers.flatMap(({ id, kind, label, description }, i): Item[] => [
    ...(offers[i - 1]?.kind === kind ? [] : [{ label: titles[kind], kind: QuickPickItemKind.Separator }]),
    { id, label, description },
  ]);
}
