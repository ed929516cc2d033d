// Values copied from a spreadsheet or a meter's program, pasted into the cells of a table.
import {
  type CancellationToken,
  commands,
  Disposable,
  DocumentDropOrPasteEditKind,
  DocumentPasteEdit,
  type DocumentPasteEditProvider,
  env,
  l10n,
  languages,
  type Position,
  type TextDocument,
  WorkspaceEdit,
  window,
} from "vscode";
import {
  PASTE_CELLS,
  type PasteAnswer,
  type Typed,
} from "../../../server/src/protocol/custom-requests/typing";
import { holdsLog } from "../in-log";
import type { Mendlog } from "../mendlog";
import { toEditorRange } from "../range";
import { placeInEditor } from "./apply";

const KIND = DocumentDropOrPasteEditKind.Empty.append("text", "mendlog", "cells");
const PLAIN = "text/plain";

/** What is copied as several cells: lines or tabs between values, and no line beginning with a pipe. */
const isSeveral = (text: string): boolean =>
  /[\t\r\n]/.test(text.replace(/[\r\n]+$/, "")) && !/^[ \t]*\|/.test(text);

export function pasting(mendlog: Mendlog): Disposable {
  return Disposable.from(
    languages.registerDocumentPasteEditProvider({ language: "markdown" }, provider(mendlog), {
      providedPasteEditKinds: [KIND],
      pasteMimeTypes: [PLAIN],
    }),
    commands.registerCommand("mendlog.pasteColumn", () => pasteColumn(mendlog)),
  );
}

const askFor = (
  mendlog: Mendlog,
  document: TextDocument,
  { line, character }: Position,
  text: string,
  token?: CancellationToken,
) =>
  mendlog.request(PASTE_CELLS, { uri: document.uri.toString(), position: { line, character }, text }, token);

/** The default paste in a table for what holds more than one cell; everything else is pasted as ever. */
const provider = (mendlog: Mendlog): DocumentPasteEditProvider => ({
  async provideDocumentPasteEdits(document, [range, ...more], data, _context, token) {
    if (!range?.isEmpty || more.length > 0 || !mendlog.started || !holdsLog(document)) return undefined;
    if (!document.lineAt(range.start.line).text.includes("|")) return undefined;
    const text = await data.get(PLAIN)?.asString();
    if (text === undefined || !isSeveral(text)) return undefined;
    const pasted = await askFor(mendlog, document, range.start, text, token);
    if (!pasted) return undefined;
    const title = l10n.t("Fill the cells of the table");
    if ("problem" in pasted) {
      // Pasted as it is it would break the table up: better nothing, and the word why.
      say(pasted);
      return [new DocumentPasteEdit("", title, KIND)];
    }
    sayReplaced(pasted.replaced);
    return [pasteEdit(document, pasted, title)];
  },
});

/** Nothing is put in at the cursor: its cell is filled as all the others are, and all is undone at once. */
function pasteEdit(document: TextDocument, { edits }: Typed, title: string): DocumentPasteEdit {
  const edit = new DocumentPasteEdit("", title, KIND);
  edit.additionalEdit = new WorkspaceEdit();
  for (const each of edits)
    edit.additionalEdit.replace(document.uri, toEditorRange(each.range), each.newText);
  return edit;
}

async function pasteColumn(mendlog: Mendlog): Promise<void> {
  const editor = window.activeTextEditor;
  if (!editor || !holdsLog(editor.document)) {
    void window.showWarningMessage(l10n.t("Put the cursor into a cell of a readings table of a log first."));
    return;
  }
  const text = await env.clipboard.readText();
  let last: PasteAnswer | null = null;
  const done = await placeInEditor(editor, async () => {
    last = await askFor(mendlog, editor.document, editor.selection.active, text);
    return last && !("problem" in last) ? last : null;
  });
  const pasted = last as PasteAnswer | null;
  if (!pasted) {
    void window.showWarningMessage(l10n.t("Put the cursor into a cell of a readings table of a log first."));
  } else if ("problem" in pasted) say(pasted);
  else if (done === "done") sayReplaced(pasted.replaced);
}

function say(pasted: Extract<PasteAnswer, { problem: string }>): void {
  void window.showWarningMessage(messageOf(pasted));
}

function messageOf(pasted: Extract<PasteAnswer, { problem: string }>): string {
  switch (pasted.problem) {
    case "empty":
      return l10n.t("Nothing was pasted: the clipboard holds no values.");
    case "rows-of-a-table":
      return l10n.t(
        "Nothing was pasted: the clipboard holds rows of a table. Paste them on a line of their own, below a row.",
      );
    case "too-many-rows":
      return l10n.t("Nothing was pasted: the clipboard holds more rows than a table can have here.");
    case "too-many-columns":
      return l10n.t(
        "Nothing was pasted: the clipboard holds {0} columns, and from this cell on the table has {1}. Put the cursor further left, or copy fewer.",
        pasted.columns,
        pasted.room,
      );
  }
}

function sayReplaced(replaced: number): void {
  if (replaced === 0) return;
  void window.showInformationMessage(
    replaced === 1
      ? l10n.t("1 value was replaced. Undo brings it back.")
      : l10n.t("{0} values were replaced. Undo brings them back.", replaced),
  );
}
