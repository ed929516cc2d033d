import { commands, EndOfLine, type TextEditor } from "vscode";
import { sayReadOnly, tookEdit } from "../took-edit";
import type { Ahead } from "./ahead";

/** Times the text may change before the edit comes; each time somebody has typed on. */
const TRIES = 20;

/**
 * What Enter does anywhere else, where it was pressed: what is typed behind it belongs on the new line, however late
 * the key is heard of.
 */
export async function breakLine(editor: TextEditor, { at, text }: Ahead): Promise<void> {
  const { document } = editor;
  if (text === undefined) return void (await commands.executeCommand("type", { text: "\n" }));
  const indent = /^[ \t]*/.exec(document.lineAt(at.line).text.slice(0, at.character))?.[0] ?? "";
  const newText = (document.eol === EndOfLine.CRLF ? "\r\n" : "\n") + indent;
  for (let tries = 0; tries < TRIES; tries += 1) {
    const outcome = await tookEdit(document, () => editor.edit((edit) => edit.insert(at, newText)));
    if (outcome === "refused") return sayReadOnly();
    if (outcome !== "outrun") return;
  }
}
