// Edits the server asks for. The editor itself would put them into a document that is read-only for the person, too, and
// not even count it as changed: the text would be gone with the window.
import { l10n, type TextDocument, type TextEditor, window } from "vscode";
import {
  type ApplyWorkspaceEditParams,
  type ApplyWorkspaceEditResult,
  CancellationToken,
  type Middleware,
  type TextEdit,
} from "vscode-languageclient";
import { toEditorRange } from "./range";
import { readOnlyWay, tookEdit } from "./took-edit";

type Handle = NonNullable<NonNullable<Middleware["workspace"]>["handleApplyEdit"]>;

/** Edits of the one document in sight go through its editor, which says no where it is read-only; others go the usual way. */
export const applyAsTyped: Handle = async (params, next) => {
  const own = ofOne(params);
  if (!own) return next(params, CancellationToken.None);
  return typeInto(own);
};

async function typeInto({ editor, edits, version }: OneEdit): Promise<ApplyWorkspaceEditResult> {
  const not = (failureReason: string) => ({ applied: false, failureReason });
  if (version !== null && version !== editor.document.version)
    return not(l10n.t("the log has changed meanwhile"));
  const outcome = await tookEdit(editor.document, () =>
    editor.edit((builder) => {
      for (const { range, newText } of edits) builder.replace(toEditorRange(range), newText);
    }),
  );
  if (outcome === "taken") return { applied: true };
  return not(
    outcome === "refused"
      ? l10n.t("the log is read-only. {0}", readOnlyWay())
      : l10n.t("the log has changed meanwhile"),
  );
}

interface OneEdit {
  readonly editor: TextEditor;
  readonly edits: readonly TextEdit[];
  readonly version: number | null;
}

function ofOne({ edit: { changes, documentChanges } }: ApplyWorkspaceEditParams): OneEdit | undefined {
  const [change, ...more] = documentChanges ?? [];
  if (change && "textDocument" in change && more.length === 0) {
    const editor = editorOf(change.textDocument.uri);
    const edits = change.edits.filter((edit): edit is TextEdit => "newText" in edit);
    if (!editor || edits.length < change.edits.length) return undefined;
    return { editor, edits, version: change.textDocument.version };
  }
  const [entry, ...others] = documentChanges ? [] : Object.entries(changes ?? {});
  const editor = entry && others.length === 0 ? editorOf(entry[0]) : undefined;
  return editor && entry ? { editor, edits: entry[1], version: null } : undefined;
}

const editorOf = (uri: string): TextEditor | undefined =>
  [window.activeTextEditor, ...window.visibleTextEditors].find(
    (editor) => editor !== undefined && isOf(editor.document, uri),
  );

const isOf = ({ uri }: TextDocument, text: string): boolean => uri.toString() === text;
