import {
  type Disposable,
  l10n,
  type Range,
  StatusBarAlignment,
  type TextEditor,
  type TextEditorDecorationType,
  ThemeColor,
  window,
} from "vscode";
import { alarmLevel } from "../verdict";

/** What there is to say of a reading just taken. */
export interface ReadingCue {
  readonly verdict: string;
  readonly mark: string;
  readonly words: string;
  readonly sentence: string;
}

/** Milliseconds that a cue stays beside its cell. */
const SHOWN = 4000;

/** How loud a verdict is: its colour comes on top of its shape and its words, never instead. */
const LEVELS = {
  alarm: { ink: "editorError.foreground", bar: "statusBarItem.errorBackground", border: "3px double" },
  doubt: { ink: "editorWarning.foreground", bar: "statusBarItem.warningBackground", border: "1px dashed" },
  calm: { ink: "editorHint.foreground", bar: undefined, border: "1px solid" },
} as const;

/** Shows verdicts at their cells for a moment, and the last one in the status bar. */
export class VerdictCue implements Disposable {
  readonly #item = window.createStatusBarItem("mendlog.lastReading", StatusBarAlignment.Left, 10);
  #shown: TextEditorDecorationType | undefined;
  #timer: NodeJS.Timeout | undefined;

  constructor() {
    this.#item.name = l10n.t("Last reading of the meter");
  }

  waiting(words: string): void {
    // It stands still: whether somebody wants nothing to move is not told to extensions.
    this.#item.text = `$(watch) ${words}`;
    this.#item.tooltip = l10n.t("Waiting for the meter. Click to stop.");
    this.#item.command = "mendlog.stopMeter";
    this.#item.backgroundColor = undefined;
    this.#item.accessibilityInformation = { label: words, role: "status" };
    this.#item.show();
  }

  hide(): void {
    this.#item.hide();
  }

  show(editor: TextEditor, cell: Range, text: string, { verdict, mark, words, sentence }: ReadingCue): void {
    this.#clear();
    const { ink, bar, border } = LEVELS[alarmLevel(verdict)];
    const colour = new ThemeColor(ink);
    this.#shown = window.createTextEditorDecorationType({
      border,
      borderColor: colour,
      after: { contentText: ` ${mark} ${words}`, color: colour, fontWeight: "bold" },
    });
    editor.setDecorations(this.#shown, [cell]);
    this.#timer = setTimeout(() => this.#clear(), SHOWN);
    this.#item.text = `${mark} ${text}: ${words}`;
    this.#item.tooltip = sentence;
    this.#item.command = undefined;
    this.#item.backgroundColor = bar === undefined ? undefined : new ThemeColor(bar);
    this.#item.accessibilityInformation = {
      label: `${text}: ${words}. ${sentence}`,
      // Said aloud by a screen reader when it comes: what is wrong at once, the rest when there is a pause.
      role: alarmLevel(verdict) === "calm" ? "status" : "alert",
    };
    this.#item.show();
  }

  #clear(): void {
    clearTimeout(this.#timer);
    this.#shown?.dispose();
    this.#shown = undefined;
  }

  dispose(): void {
    this.#clear();
    this.#item.dispose();
  }
}
