import { commands, EndOfLine, Position, type TextEditor } from "vscode";
import { sayReadOnly, tookEdit } from "../took-edit";
import type { Ahead } from "./ahead";

/** Times the text may change before the edit comes; each time somebody has typed on. */
const TRIES = 20;

/**
 * What Enter does anywhere else, where it was pressed: what is typed behind it belongs on the new line, however late
 * the key is heard of.
 * @returns true where the keys behind it have their places on the new line
 */
export async function breakLine(editor: TextEditor, ahead: Ahead): Promise<boolean> {
  const { document } = editor;
  for (let tries = 0; tries < TRIES && !ahead.lost; tries += 1) {
    const { at } = ahead;
    const indent = /^[ \t]*/.exec(document.lineAt(at.line).text.slice(0, at.character))?.[0] ?? "";
    const newText = (document.eol === EndOfLine.CRLF ? "\r\n" : "\n") + indent;
    const next = new Position(at.line + 1, indent.length + (ahead.keys[0]?.text.length ?? 0));
    ahead.expect(newText, next);
    const outcome = await tookEdit(document, () => editor.edit((edit) => edit.insert(at, newText)));
    if (outcome === "taken") return true;
    if (outcome === "refused") sayReadOnly();
    if (outcome !== "outrun") return false;
  }
  await commands.executeCommand("type", { text: "\n" });
  return false;
}
