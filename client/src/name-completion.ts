// Names complete while they are typed, in logs and nowhere else. The editor brings up lists at letters for a whole language
// or not at all, and takes no letter of a word for a character that triggers one: where other Markdown stays as it is, a log's
// lists are asked for from here.
import {
  CancellationTokenSource,
  CompletionTriggerKind,
  commands,
  Disposable,
  type Position,
  type TextDocument,
  type TextDocumentChangeEvent,
  window,
  workspace,
} from "vscode";
import { holdsLog } from "./in-log";
import type { Feature } from "./mendlog";

/** Places where a name may belong: a row, a heading, a bracket, a line of its own, the front matter. The server knows it exactly. */
const MAYBE = /\||^#|\[[A-Za-z\d]*$|^[\w-]*$|^[\w-]+:/;
/** A word with a letter in it; the editor itself asks at digits alone. */
const WORD = /(?<![\w.])[A-Za-z]\w*$/;

/** The word that a list was last asked for: it is asked for once. */
interface Word {
  readonly document: TextDocument;
  readonly line: number;
  readonly start: number;
}

export const nameCompletion: Feature = (mendlog) => {
  let listed: Word | undefined;
  let asking: CancellationTokenSource | undefined;

  const typed = async ({ document, contentChanges }: TextDocumentChangeEvent) => {
    const [change] = contentChanges;
    if (!change) return;
    asking?.cancel();
    const editor = window.activeTextEditor;
    if (document !== editor?.document || contentChanges.length > 1 || !/^[A-Za-z\d]$/.test(change.text))
      return;
    if (!mendlog.started || !holdsLog(document) || listsComeUp(document)) return;
    const end = change.range.start.translate(0, 1);
    const start = wordStart(document, end);
    if (start === undefined) return;
    const word = { document, line: end.line, start };
    if (listed && isSame(listed, word)) return;
    const own = new CancellationTokenSource();
    asking = own;
    // The server hears of the change from another listener, which may come after this one.
    await Promise.resolve();
    const context = { triggerKind: CompletionTriggerKind.TriggerCharacter, triggerCharacter: change.text };
    const items = await mendlog.completions(document, end, context, own.token);
    if (!items || ("items" in items ? items.items : items).length === 0) return;
    // The word may have grown meanwhile: the list is narrowed down to it.
    const now = window.activeTextEditor?.selection;
    if (own.token.isCancellationRequested || window.activeTextEditor !== editor || !now?.isEmpty) return;
    if (now.active.line !== end.line || wordStart(document, now.active) !== start) return;
    listed = word;
    await commands.executeCommand("editor.action.triggerSuggest", { auto: true });
  };
  return Disposable.from(
    workspace.onDidChangeTextDocument((event) => void typed(event)),
    new Disposable(() => asking?.cancel()),
  );
};

const isSame = (a: Word, b: Word): boolean =>
  a.document === b.document && a.line === b.line && a.start === b.start;

/** Where the word before a place begins, if a name may belong there. */
function wordStart(document: TextDocument, { line, character }: Position): number | undefined {
  if (line >= document.lineCount) return undefined;
  const before = document.lineAt(line).text.slice(0, character);
  return MAYBE.test(before) ? WORD.exec(before)?.index : undefined;
}

const listsComeUp = (document: TextDocument): boolean => {
  const quick = workspace.getConfiguration("editor", document).get<unknown>("quickSuggestions");
  const other = typeof quick === "object" && quick !== null ? (quick as { other?: unknown }).other : quick;
  return other === true || other === "on" || other === "inline";
};
