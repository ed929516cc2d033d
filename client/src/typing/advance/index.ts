// A reading that is typed in full leads on to the next cell by itself. The editor tells of a key only after it has done its
// work, so what was typed meanwhile stands in the cell that was left: it is cut where readings end, which hangs on what was
// typed alone, and each reading is put into its own cell.
import {
  commands,
  Disposable,
  type Position,
  type Range,
  type TextDocument,
  type TextDocumentChangeEvent,
  TextDocumentChangeReason,
  type TextEditor,
  type TextEditorSelectionChangeEvent,
  TextEditorSelectionChangeKind,
  window,
  workspace,
} from "vscode";
import {
  type CursorDirection,
  ENTER_AT,
  NEXT_CELL,
} from "../../../../server/src/protocol/custom-requests/typing";
import type { LinePosition } from "../../../../server/src/text/line-index";
import { isGuiding } from "../../guide";
import { holdsLog } from "../../in-log";
import { isMeterWriting } from "../../last-verdict";
import type { Mendlog } from "../../mendlog";
import { type EditOutcome, sayReadOnly } from "../../took-edit";
import { followBoundaries } from "./boundaries";
import { asKeystrokes, firstStep, type Step, typedText, withoutHabit } from "./keystrokes";
import { ownEdits } from "./own-edits";
import { answered, cellAfter, emptyRun, showing, takingBack } from "./rewrite";
import { type HeardChange, heard, isFirstIn, isPlainTyping, type Run } from "./run";

export interface Advancing {
  /** Does what a key does, behind all that was typed before it. */
  press(editor: TextEditor, at: Position, direction: CursorDirection): void;
  /** Takes back the last reading. */
  undo(): Promise<void>;
  dispose(): void;
}

/** True where a reading that is typed in full leads on by itself. */
export const isAdvancing = (document: TextDocument): boolean =>
  workspace.getConfiguration("mendlog", document).get("typing.advance") === "whenComplete";

/**
 * @param usual does what a key does where it means what it always means
 * @param moved is told whenever a key has done its work
 */
export function advancing(
  mendlog: Mendlog,
  usual: (direction: CursorDirection) => Thenable<unknown>,
  moved: () => void,
): Advancing {
  const boundaries = followBoundaries();
  const own = ownEdits();
  let editor: TextEditor | undefined;
  let run: Run | undefined;
  let working: Promise<void> | undefined;
  let undoing = false;

  /** Whatever was typed and is not in the text at the moment goes to the cursor: nothing typed is lost. */
  const lose = () => {
    const typed = run ? typedText(run.keys) : "";
    const rest = run && typed.startsWith(run.shown) ? typed.slice(run.shown.length) : "";
    run = undefined;
    own.forget();
    boundaries.clear();
    if (rest !== "") void commands.executeCommand("type", { text: rest });
  };

  const changed = ({ document, contentChanges, reason }: TextDocumentChangeEvent) => {
    const [change] = contentChanges;
    if (!change || undoing) return;
    if (document !== window.activeTextEditor?.document) {
      if (document === editor?.document) lose();
      return;
    }
    if (reason !== undefined) {
      run = undefined;
      if (reason === TextDocumentChangeReason.Redo) boundaries.clear();
      return;
    }
    const { range, text } = change;
    if (contentChanges.length === 1 && own.isOwn(range, text)) return boundaries.changed();
    if (isMeterWriting() || isGuiding()) return lose();
    if (run && document === editor?.document) {
      const before: Run | undefined = run;
      const after = contentChanges.reduce<Run | undefined>(
        (now, { range: at, text: written }) => now && heard(now, placed(at, written)),
        before,
      );
      if (after && (after === before || contentChanges.length === 1)) {
        run = after;
        boundaries.changed();
        if (after !== before) work();
        return;
      }
      lose();
    }
    if (contentChanges.length === 1) begins(document, range, text);
  };

  const begins = (document: TextDocument, { start, end, isSingleLine }: Range, text: string) => {
    const front = window.activeTextEditor;
    if (!front || !isSingleLine || text.length !== 1 || !isPlainTyping(text) || text === " ") return;
    if (!mendlog.started || start.line >= document.lineCount) return;
    const line = document.lineAt(start.line).text;
    if (!isFirstIn(line, start.character) || !holdsLog(document) || !isAdvancing(document)) return;
    const whole = document.getText();
    const at = document.offsetAt(start);
    // A cell that a snippet leads to is selected, with the blanks in it.
    const blanks = " ".repeat(end.character - start.character);
    boundaries.begun(document, whole.slice(0, at) + blanks + whole.slice(at + 1));
    editor = front;
    run = { ...emptyRun(document, start), shown: text, keys: asKeystrokes(text) };
    work();
  };

  const selected = ({ textEditor, kind, selections }: TextEditorSelectionChangeEvent) => {
    if (!run || textEditor !== editor || own.isOut || undoing) return;
    const [selection] = selections;
    if (!selection) return;
    const { line, character } = run.start;
    const { active } = selection;
    const isInside =
      active.line === line &&
      active.character >= character &&
      active.character <= character + run.shown.length;
    if (isInside && selections.length === 1 && selection.isEmpty) return;
    // The editor tells of the cursor later than of the text.
    if (working && kind !== TextEditorSelectionChangeKind.Mouse) return;
    if (!working && active.line === line && kind !== TextEditorSelectionChangeKind.Mouse && run.taken !== "")
      return;
    lose();
  };

  const work = () => {
    working ??= go().finally(() => {
      working = undefined;
      moved();
    });
  };

  const go = async () => {
    for (let now = run; now && editor && !editor.document.isClosed; now = run) {
      const goesOn = await next(editor, now);
      if (!goesOn) return;
    }
  };

  /** False where there is nothing left to be done. */
  const next = async (on: TextEditor, now: Run): Promise<boolean> => {
    if (now.digits === undefined) return learn(on, now);
    if (now.taken !== "") return takeBack(on, now);
    const { keys, waits } = now.habit ? withoutHabit(now.keys) : { keys: now.keys, waits: false };
    run = { ...now, keys, habit: waits };
    const step = firstStep(keys, now.digits ?? undefined);
    const wanted = step ? step.reading : typedText(keys);
    if (now.shown !== wanted) {
      return goesOn(
        await own.write(on, showing(now, wanted), false, () => {
          if (run) run = { ...run, shown: wanted };
        }),
      );
    }
    return step !== undefined && leave(on, run, step);
  };

  /** How digits are read in the cell. */
  const learn = async ({ document }: TextEditor, { start, shown }: Run): Promise<boolean> => {
    const position = { line: start.line, character: start.character + shown.length };
    const answer = await mendlog.request(ENTER_AT, { uri: document.uri.toString(), position });
    if (!run || !isAt(run.start, start) || run.digits !== undefined) return true;
    run = { ...run, digits: answer?.digits ?? null };
    // The stops of a table's snippet lead on by keys alone.
    if (answer?.digits) void commands.executeCommand("leaveSnippet");
    else if (run.keys.every((key) => "char" in key)) lose();
    return true;
  };

  const goesOn = (outcome: EditOutcome): boolean => {
    if (outcome === "taken" || outcome === "outrun") return true;
    if (outcome === "refused") sayReadOnly();
    run = undefined;
    boundaries.clear();
    return false;
  };

  /** A reading is over, or a key was pressed: what is to be done with its row, and the cursor where that leads. */
  const leave = async (on: TextEditor, { start, shown }: Run, step: Step): Promise<boolean> => {
    const { document } = on;
    const { version } = document;
    const uri = document.uri.toString();
    const position = { line: start.line, character: start.character + shown.length };
    const answer = await mendlog.request(NEXT_CELL, { uri, position, direction: step.direction });
    if (document.isClosed) return false;
    if (document.version !== version || !run) return true;
    if (!answer) return notHere(step);
    const line = document.lineAt(start.line).text;
    const then = () => {
      if (run) run = cellAfter(document, run, step, answer.cursor, line);
      boundaries.reached(document);
    };
    const rewriting = answered(document, answer);
    return goesOn(
      rewriting ? await own.write(on, rewriting, true, then) : await own.move(on, answer.cursor, then),
    );
  };

  /** The key means there what it always means; and a reading that leads nowhere stays. */
  const notHere = async ({ direction, length }: Step): Promise<boolean> => {
    if (!run) return false;
    if (direction === "advance") {
      run = { ...run, digits: null };
      return true;
    }
    run = { ...run, shown: "", keys: run.keys.slice(length) };
    await usual(direction);
    lose();
    return false;
  };

  /** Backspace in a cell that was just come to takes back the last character of the reading that was left. */
  const takeBack = async (on: TextEditor, now: Run): Promise<boolean> => {
    const { rewriting, returns, made } = takingBack(on.document, now);
    return goesOn(
      await own.write(on, rewriting, false, () => {
        if (run) run = made(run);
        if (returns) boundaries.returned();
      }),
    );
  };

  /** One after the other: the editor may show a step before it has told of it. */
  let undone: Promise<void> = Promise.resolve();
  const undo = (): Promise<void> => {
    undone = undone.then(async () => {
      await working;
      const front = window.activeTextEditor;
      if (!front) return;
      run = undefined;
      undoing = true;
      try {
        await boundaries.undo(front.document);
      } finally {
        undoing = false;
      }
    });
    return undone;
  };

  const listening = Disposable.from(
    workspace.onDidChangeTextDocument(changed),
    window.onDidChangeTextEditorSelection(selected),
    window.onDidChangeActiveTextEditor((front) => {
      if (front !== editor) lose();
    }),
  );
  return {
    press: (front, at, direction) => {
      const follows =
        run && editor === front && (working || (at.line === run.start.line && isBehind(run, at)));
      if (!follows || !run) {
        if (run) lose();
        editor = front;
        boundaries.begun(front.document, front.document.getText());
        run = { ...emptyRun(front.document, at), digits: null };
        void commands.executeCommand("leaveSnippet");
      }
      run = { ...run, keys: [...run.keys, { leads: direction }] };
      work();
    },
    undo,
    dispose: () => void listening.dispose(),
  };
}

const isBehind = ({ start, shown }: Run, { character }: Position): boolean =>
  character === start.character + shown.length;

const isAt = (a: LinePosition, b: LinePosition): boolean => a.line === b.line && a.character === b.character;

const placed = ({ start, end }: Range, text: string): HeardChange => ({ start, end, text });
