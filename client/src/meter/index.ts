// Reads a bench meter into the cell under the cursor, so that both hands stay on the probes.
import {
  commands,
  Disposable,
  env,
  l10n,
  Position,
  Range,
  Selection,
  type TextEditor,
  window,
  workspace,
} from "vscode";
import { METER_QUESTION, METER_READING, VERDICT } from "../../../server/src/protocol/own/capture";
import { WRITE_CELL } from "../../../server/src/protocol/own/typing";
import { isGuiding } from "../guide";
import { holdsLog } from "../in-log";
import { asMeter, onVerdict, tellVerdict } from "../last-verdict";
import type { Feature, Mendlog } from "../mendlog";
import { rangeOf } from "../range";
import { isNeverWritten, readOnlyWay, sayReadOnly, tookEdit } from "../took-edit";
import { isOutside } from "../verdict";
import { type Address, parseAddress } from "./address";
import { Cue } from "./cue";
import { Instrument } from "./instrument";
import { keepPlace } from "./keep-place";
import { type MeterSettings, meterSettings } from "./settings";
import { failureWords } from "./words";

/** True while an answer is waited for, so that Escape can end it. */
const WAITING = "mendlog.meterWaiting";
const RETRIES = 3;

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
  readonly #cue = new Cue();
  #instrument: { readonly at: string; readonly instrument: Instrument } | undefined;
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
    const address = parseAddress(settings.address);
    if (!address) return noAddress(settings);
    const stop = new AbortController();
    this.#stop = stop;
    await commands.executeCommand("setContext", WAITING, true);
    try {
      await this.#readInto(editor, settings, address, stop.signal);
    } finally {
      this.#stop = undefined;
      await commands.executeCommand("setContext", WAITING, false);
    }
  }

  async #readInto(
    editor: TextEditor,
    settings: MeterSettings,
    address: Address,
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
    const instrument = this.#instrumentAt(address);
    const cell = follow(editor, position);
    this.#cue.waiting(l10n.t("Measuring: {0}", question.words));
    const query = settings.ask === "read" ? "READ?" : `MEAS:${question.node}?`;
    const answer = await instrument.ask(query, settings.timeout, signal);
    if (!answer.ok) {
      cell.stop();
      this.#cue.hide();
      if (answer.failure.kind !== "cancelled") void warn(failureWords(answer.failure, settings.address));
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
      await this.#write(editor, cell, reading?.text ?? answer.text, settings, instrument);
    } finally {
      cell.stop();
    }
  }

  async #write(
    editor: TextEditor,
    cell: Followed,
    text: string,
    settings: MeterSettings,
    instrument: Instrument,
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
                for (const { range, newText } of step.edits) edit.replace(rangeOf(range), newText);
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
      return this.#showVerdict(shown, place, text, settings, instrument);
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
    instrument: Instrument,
  ): Promise<void> {
    const verdict = await this.#mendlog.request(VERDICT, {
      uri: editor.document.uri.toString(),
      position: place,
    });
    if (!verdict) return this.#cue.hide();
    this.#cue.show(editor, rangeOf(verdict.range), text, verdict);
    tellVerdict({ by: "meter", uri: editor.document.uri.toString(), text, verdict });
    // SCPI-1999 volume 2, SYSTem:BEEPer (from memory). A meter that cannot beep only notes an error for itself.
    if (beep === "always" || (beep === "outsideLimits" && isOutside(verdict))) instrument.tell("SYST:BEEP");
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

  #instrumentAt(address: Address): Instrument {
    const at = `${address.host} ${address.port}`;
    if (this.#instrument?.at !== at) {
      this.#instrument?.instrument.dispose();
      this.#instrument = { at, instrument: new Instrument(address) };
    }
    return this.#instrument.instrument;
  }

  dispose(): void {
    this.stop();
    this.#instrument?.instrument.dispose();
    this.#cue.dispose();
  }
}

async function noAddress({ address }: MeterSettings): Promise<void> {
  const settings = l10n.t("Open the settings");
  const message =
    address === "" && !workspace.isTrusted
      ? l10n.t(
          "No meter is set up. In Restricted Mode an address among the workspace's settings does not count: trust the folder, or give the address in your own settings.",
        )
      : address === ""
        ? l10n.t("No meter is set up. Give its network address in the settings, such as 192.168.1.50.")
        : l10n.t(
            '"{0}" is no network address of a meter. Use a name or an address, such as 192.168.1.50:5025.',
            address,
          );
  if ((await warn(message, settings)) === settings) {
    await commands.executeCommand("workbench.action.openSettings", "mendlog.meter");
  }
}

interface Followed {
  /** Where the place is now; undefined once its row was changed or its document closed. */
  now(): Position | undefined;
  version(): number;
  stop(): void;
}

/** Keeps hold of a place while the text around it is edited; its row must stay as it is. */
function follow({ document }: TextEditor, position: Position): Followed {
  const line = document.lineAt(position).range;
  let at: ReturnType<typeof keepPlace> = {
    offset: document.offsetAt(position),
    start: document.offsetAt(line.start),
    end: document.offsetAt(line.end),
  };
  const listening = workspace.onDidChangeTextDocument((event) => {
    if (event.document === document && at) at = keepPlace(at.offset, at, event.contentChanges);
  });
  return {
    now: () => (at && !document.isClosed ? document.positionAt(at.offset) : undefined),
    version: () => document.version,
    stop: () => void listening.dispose(),
  };
}

const positionOf = ({ line, character }: { line: number; character: number }): Position =>
  new Position(line, character);
