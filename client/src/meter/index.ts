// Reads a bench meter, or what another program appends to a file, into the cell under the cursor, so that both hands stay on the probes.
import { commands, Disposable, env, l10n, Position, Range, Selection, type TextEditor, window } from "vscode";
import { METER_QUESTION, METER_READING, VERDICT } from "../../../server/src/protocol/custom-requests/capture";
import { WRITE_CELL } from "../../../server/src/protocol/custom-requests/typing";
import { isGuiding } from "../guide";
import { holdsLog } from "../in-log";
import { asMeter, onVerdict, tellVerdict } from "../last-verdict";
import type { Feature, Mendlog } from "../mendlog";
import { toEditorRange } from "../range";
import { isNeverWritten, readOnlyWay, sayReadOnly, tookEdit } from "../took-edit";
import { isOutside } from "../verdict";
import { VerdictCue } from "./cue";
import { type Followed, follow } from "./follow";
import { type MeterSettings, meterSettings } from "./settings";
import type { ReadingSource } from "./source";
import { type Named, ReadingSources } from "./source-of";

/** True while an answer is waited for, so that Escape can end it. */
const WAITING = "mendlog.meterWaiting";
const RETRIES = 3;

/** The commands that take readings from a meter and stop it. */
export const meter: Feature = (mendlog) => {
  const bench = new Bench(mendlog);
  return Disposable.from(
    commands.registerCommand("mendlog.readMeter", () => bench.read()),
    commands.registerCommand("mendlog.stopMeter", () => bench.stop()),
    onVerdict(({ by }) => {
      if (by === "keys") bench.typed();
    }),
    bench,
  );
};

const warn = async (message: string, ...buttons: string[]): Promise<string | undefined> =>
  window.showWarningMessage(message, ...buttons);

class Bench {
  readonly #mendlog: Mendlog;
  readonly #cue = new VerdictCue();
  readonly #sources = new ReadingSources();
  #stop: AbortController | undefined;

  constructor(mendlog: Mendlog) {
    this.#mendlog = mendlog;
  }

  /** A reading was typed meanwhile: its verdict is the one to be seen. */
  typed(): void {
    if (!this.#stop) this.#cue.hide();
  }

  stop(): void {
    this.#stop?.abort();
  }

  async read(): Promise<void> {
    // A pedal that is pressed twice asks once.
    if (this.#stop) return;
    const editor = window.activeTextEditor;
    if (!editor || !holdsLog(editor.document))
      return void warn(l10n.t("Open a repair log and put the cursor into a cell of readings first."));
    if (isNeverWritten(editor.document)) return sayReadOnly();
    const settings = meterSettings(editor.document.uri);
    const stop = new AbortController();
    this.#stop = stop;
    try {
      const named = await this.#sources.of(settings, editor.document.uri);
      if (!named) return;
      await commands.executeCommand("setContext", WAITING, true);
      await this.#readInto(editor, settings, named, stop.signal);
    } finally {
      this.#stop = undefined;
      await commands.executeCommand("setContext", WAITING, false);
    }
  }

  async #readInto(
    editor: TextEditor,
    settings: MeterSettings,
    { source, failureWords }: Named,
    signal: AbortSignal,
  ): Promise<void> {
    const { document } = editor;
    const uri = document.uri.toString();
    const position = editor.selection.active;
    const question = await this.#mendlog.request(METER_QUESTION, { uri, position });
    if (!question)
      return void warn(
        l10n.t("The checker did not answer, so the meter was not asked. Its messages say why."),
      );
    if (!question.ok) return void warn(question.reason);
    const cell = follow(editor, position);
    this.#cue.waiting(l10n.t("Measuring: {0}", question.words));
    const query = settings.ask === "read" ? "READ?" : `MEAS:${question.node}?`;
    const answer = await source.ask(query, settings.timeout, signal);
    if (!answer.ok) {
      cell.stop();
      this.#cue.hide();
      if (answer.failure.kind !== "cancelled") void warn(failureWords(answer.failure));
      return;
    }
    const reading = await this.#mendlog.request(METER_READING, {
      uri,
      position: cell.now() ?? position,
      answer: answer.text,
      digits: settings.digits,
    });
    if (reading?.ok === false) {
      cell.stop();
      this.#cue.hide();
      return void warn(l10n.t("Nothing was written: {0}.", reading.reason));
    }
    try {
      await this.#write(editor, cell, reading?.text ?? answer.text, settings, source);
    } finally {
      cell.stop();
    }
  }

  async #write(
    editor: TextEditor,
    cell: Followed,
    text: string,
    settings: MeterSettings,
    source: ReadingSource,
  ): Promise<void> {
    const { document } = editor;
    for (let again = 0; ; again += 1) {
      const { place, step } = await this.#step(document.uri.toString(), cell, text);
      if (document.isClosed)
        return this.#lost(text, l10n.t("The log was closed while the meter was measuring"));
      if (!place) return this.#lost(text, l10n.t("The row changed while the meter was measuring"));
      if (!step) return this.#lost(text, l10n.t("The table is no longer one"));
      // The person may have gone to another tab and come back: an editor of the log, not the one that it began in.
      const shown = window.visibleTextEditors.includes(editor)
        ? editor
        : window.visibleTextEditors.find((one) => one.document === document);
      const outcome = shown
        ? await asMeter(() =>
            tookEdit(document, () =>
              shown.edit((edit) => {
                for (const { range, newText } of step.edits) edit.replace(toEditorRange(range), newText);
              }),
            ),
          )
        : "gone";
      if (!shown || outcome === "gone") return this.#lost(text, l10n.t("The log is no longer in front"));
      if (outcome === "refused") return this.#lost(text, l10n.t("The log is read-only"), readOnlyWay());
      // Something was typed elsewhere before the reading came to its cell: the cell is still there.
      if (outcome === "outrun" && again < RETRIES) continue;
      if (outcome === "outrun")
        return this.#lost(text, l10n.t("The row changed while the meter was measuring"));
      const next = positionOf(step.cursor);
      shown.selection = new Selection(next, next);
      shown.revealRange(new Range(next, next));
      return this.#showVerdict(shown, place, text, settings, source);
    }
  }

  /** Asked again where the text has changed meanwhile; a person typing on is soon overtaken. */
  async #step(uri: string, cell: Followed, text: string) {
    for (let again = 0; ; again += 1) {
      const place = cell.now();
      const version = cell.version();
      const step =
        place &&
        (await this.#mendlog.request(WRITE_CELL, {
          uri,
          position: place,
          text,
          // Who is led goes where the guide goes, and not to the row below.
          ...(isGuiding() ? { stays: true as const } : {}),
        }));
      if (!step || version === cell.version() || again === RETRIES) return { place, step };
    }
  }

  async #showVerdict(
    editor: TextEditor,
    place: Position,
    text: string,
    { beep }: MeterSettings,
    source: ReadingSource,
  ): Promise<void> {
    const verdict = await this.#mendlog.request(VERDICT, {
      uri: editor.document.uri.toString(),
      position: place,
    });
    if (!verdict) return this.#cue.hide();
    this.#cue.show(editor, toEditorRange(verdict.range), text, verdict);
    tellVerdict({ by: "meter", uri: editor.document.uri.toString(), text, verdict });
    // SCPI-1999 volume 2, SYSTem:BEEPer (from memory). A meter that cannot beep only notes an error for itself.
    if (beep === "always" || (beep === "outsideLimits" && isOutside(verdict))) source.tell("SYST:BEEP");
  }

  /** A reading is never thrown away. The next one can be taken while it still waits to be copied. */
  #lost(text: string, why: string, way = ""): void {
    this.#cue.hide();
    const copy = l10n.t("Copy the reading");
    const message = l10n.t("{0}, so the reading was not written: {1}", why, text);
    void warn(way === "" ? message : `${message}. ${way}`, copy).then((pressed) =>
      pressed === copy ? env.clipboard.writeText(text) : undefined,
    );
  }

  dispose(): void {
    this.stop();
    this.#sources.dispose();
    this.#cue.dispose();
  }
}

const positionOf = ({ line, character }: { line: number; character: number }): Position =>
  new Position(line, character);
