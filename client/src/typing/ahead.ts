import { type Position, type TextEditor, workspace } from "vscode";
import type { CursorDirection } from "../../../server/src/protocol/custom-requests/typing";
import { isPlainTyping } from "./advance/run";

/** A key that has yet to do its work, and what was typed behind it. */
export interface Pressed {
  readonly direction: CursorDirection;
  readonly text: string;
}

/** The keys pressed in an editor, in turn, while the first of them is waited for. */
export interface Ahead {
  /** Where the first of them was pressed: all that was typed since stands behind it. */
  readonly at: Position;
  readonly keys: readonly Pressed[];
  /** All that was typed since. */
  readonly text: string;
  /** True once the text was changed in any other way. */
  readonly lost: boolean;
  /** A further key, which waits for those before it. */
  press(direction: CursorDirection): void;
  /**
   * The first key is about to be done by an edit.
   * @param written the whole text of the edit, by which it is known again
   * @param next where the next key's place will be: behind what was typed before it
   */
  expect(written: string, next: Position): void;
  /** The first key is done, and the next one's place is here. */
  done(next: Position): void;
  dispose(): void;
}

/** Begins where the cursor is, and has to be begun as soon as the key is heard of: changes come in the order of the keys. */
export function typedAhead({ document, selection }: TextEditor, first: CursorDirection): Ahead {
  let at = selection.active;
  let keys: readonly Pressed[] = [{ direction: first, text: "" }];
  let lost = false;
  let expected: { readonly written: string; readonly next: Position } | undefined;
  const textOf = () => keys.map(({ text }) => text).join("");
  const listening = workspace.onDidChangeTextDocument(({ document: changed, contentChanges }) => {
    const [change] = contentChanges;
    if (changed !== document || lost || !change) return;
    if (expected && contentChanges.length === 1 && plain(change.text) === plain(expected.written)) {
      // What is typed from now on stands at the new place.
      at = expected.next;
      keys = keys.slice(1);
      expected = undefined;
      return;
    }
    const follows = change.range.isEmpty && change.range.start.isEqual(at.translate(0, textOf().length));
    const last = keys.at(-1);
    if (!follows || contentChanges.length > 1 || !last || !isPlainTyping(change.text)) lost = true;
    else keys = [...keys.slice(0, -1), { ...last, text: last.text + change.text }];
  });
  return {
    get at() {
      return at;
    },
    get keys() {
      return keys;
    },
    get text() {
      return textOf();
    },
    get lost() {
      return lost;
    },
    press: (direction) => {
      keys = [...keys, { direction, text: "" }];
    },
    expect: (written, next) => {
      expected = { written, next };
    },
    done: (next) => {
      at = next;
      keys = keys.slice(1);
    },
    dispose: () => void listening.dispose(),
  };
}

const plain = (text: string): string => text.replace(/\r\n?/g, "\n");
