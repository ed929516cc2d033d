import { Position, type Range, SnippetString, type TextEditor } from "vscode";
import type { LinePosition } from "../../../../server/src/text/line-index";
import { type EditOutcome, tookEdit } from "../../took-edit";
import type { Carried } from "../carry";

/** A stretch of a text that becomes another, with the cursor between two parts of it. */
export interface Rewriting extends Pick<Carried, "before" | "after"> {
  readonly range: Range;
}

/**
 * Edits that are told from a person's typing: what they change in what is known of the cell is done as soon as the editor
 * tells of them, since what it tells of next was typed behind them.
 */
export interface OwnEdits {
  /** True while one is on its way. */
  readonly isOut: boolean;
  /** True for the change that one of them made; what was to be done then is done. */
  isOwn(range: Range, text: string): boolean;
  /** @param isOver true ends the step to undo */
  write(editor: TextEditor, rewriting: Rewriting, isOver: boolean, then: () => void): Promise<EditOutcome>;
  /** Moves the cursor and writes nothing. */
  move(editor: TextEditor, to: LinePosition, then: () => void): Promise<EditOutcome>;
  forget(): void;
}

export function ownEdits(): OwnEdits {
  let expected: { readonly range: Range; readonly text: string; readonly then: () => void } | undefined;
  let moving: { readonly to: Position; readonly then: () => void } | undefined;
  const arrive = () => {
    const then = moving?.then;
    moving = undefined;
    then?.();
  };
  return {
    get isOut() {
      return expected !== undefined;
    },
    isOwn: (range, text) => {
      // A move is no change to be heard of: what is typed at its end shows that it was made.
      if (moving?.to.isEqual(range.end)) arrive();
      if (!expected?.range.isEqual(range) || plain(expected.text) !== plain(text)) return false;
      const { then } = expected;
      expected = undefined;
      then();
      return true;
    },
    write: async (editor, { range, before, after }, isOver, then) => {
      const own = { range, text: before + after, then };
      expected = own;
      const snippet = new SnippetString().appendText(before).appendTabstop(0).appendText(after);
      const stops = { undoStopBefore: false, undoStopAfter: isOver };
      const outcome = await tookEdit(editor.document, () => editor.insertSnippet(snippet, range, stops));
      if (expected === own) expected = undefined;
      return outcome;
    },
    move: async (editor, { line, character }, then) => {
      const to = new Position(line, character);
      const own = { to, then };
      moving = own;
      const stops = { undoStopBefore: false, undoStopAfter: true };
      const nothing = new SnippetString().appendTabstop(0);
      const done = await editor.insertSnippet(nothing, to, stops).then(undefined, () => undefined);
      if (moving === own) {
        if (done) arrive();
        moving = undefined;
      }
      if (done === undefined) return "gone";
      return done ? "taken" : "outrun";
    },
    forget: () => {
      expected = undefined;
      moving = undefined;
    },
  };
}

const plain = (text: string): string => text.replace(/\r\n?/g, "\n");
