// Enter behind a line that was typed in full and stands in the list too. The editor means to make a new line then ("smart"), but
// while it waits for another extension's words its list is that of an earlier letter, and Enter puts in place what stands there
// already. So the list is closed when the line is complete, and where Enter was quicker the new line is made afterwards.
import {
  type CompletionItem,
  type CompletionList,
  commands,
  Disposable,
  EndOfLine,
  Position,
  type ProviderResult,
  type TextDocument,
  window,
  workspace,
} from "vscode";
import type { Middleware } from "vscode-languageclient";
import type { Feature } from "./mendlog";
import { tookEdit } from "./took-edit";
import { heardAtOnce } from "./typing/heard-at-once";

/** Run behind each item that makes a whole line, with its text. */
const TOOK_LINE = "mendlog.tookLine";
/** Times the text may change before the edit comes; each time somebody has typed on. */
const TRIES = 20;

type Answer = CompletionItem[] | CompletionList | null | undefined;

/** The whole lines that were offered last. */
let offered: ReadonlySet<string> = new Set();

/** Hears what is offered. */
export const wholeLines: Pick<Middleware, "provideCompletionItem"> = {
  provideCompletionItem: (document, position, context, token, next): ProviderResult<Answer> =>
    Promise.resolve(next(document, position, context, token)).then((answer) => {
      const lines = new Set<string>();
      for (const item of (answer && ("items" in answer ? answer.items : answer)) ?? []) {
        const text = wholeLine(item);
        if (text === undefined || item.command) continue;
        lines.add(text);
        item.command = { title: "", command: TOOK_LINE, arguments: [text] };
      }
      if (lines.size > 0) offered = lines;
      return answer;
    }),
};

/**
 * What an item makes of its line, where it replaces it from its first character on. The list of an answer that was cancelled while
 * it was being converted has holes.
 */
function wholeLine(item: CompletionItem | undefined): string | undefined {
  if (!item) return undefined;
  const { range, insertText } = item;
  const replaced = range && "inserting" in range ? range.inserting : range;
  const isWhole = replaced?.start.character === 0 && typeof insertText === "string";
  return isWhole && !/[\r\n]/.test(insertText) ? insertText : undefined;
}

export const takenLine: Feature = () => {
  /** A line that is what was offered because it was typed so. */
  let whole: { readonly document: TextDocument; readonly line: number; readonly text: string } | undefined;
  const typing = workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
    const [change] = contentChanges;
    if (!change || document !== window.activeTextEditor?.document) return;
    const { line } = change.range.start;
    if (line >= document.lineCount) return;
    const { text } = document.lineAt(line);
    if (whole?.document === document && whole.line === line && !text.startsWith(whole.text))
      whole = undefined;
    if (contentChanges.length > 1 || change.text.length !== 1 || !offered.has(text)) return;
    whole = { document, line, text };
    void commands.executeCommand("hideSuggestWidget");
  });
  const breakBehind = async (taken: unknown) => {
    const typed = whole;
    whole = undefined;
    const editor = window.activeTextEditor;
    if (!typed || typed.text !== taken || editor?.document !== typed.document) return;
    const { document, line, text } = typed;
    for (let tries = 0; tries < TRIES; tries += 1) {
      if (line >= document.lineCount || !document.lineAt(line).text.startsWith(text)) return;
      const end = document.eol === EndOfLine.CRLF ? "\r\n" : "\n";
      const place = new Position(line, text.length);
      const outcome = await tookEdit(document, () => editor.edit((edit) => edit.insert(place, end)));
      if (outcome !== "outrun") return;
    }
  };
  return Disposable.from(typing, heardAtOnce({ [TOOK_LINE]: breakBehind }));
};
