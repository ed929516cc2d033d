// "Guide me": the cursor goes to the cell for the next reading, which is made where there is none; the status bar says which
// pin and what to expect. When the reading is in its cell, the next one is worked out while the hand moves.
import {
  commands,
  Disposable,
  EventEmitter,
  l10n,
  StatusBarAlignment,
  type TextEditor,
  window,
  workspace,
} from "vscode";
import { GUIDE, type Guide } from "../../../server/src/protocol/custom-requests/guide";
import type { Typed } from "../../../server/src/protocol/custom-requests/typing";
import { holdsLog } from "../in-log";
import { onVerdict } from "../last-verdict";
import type { Feature, Mendlog } from "../mendlog";
import { placeInEditor } from "../typing/apply";
import { ledOn } from "../typing/grown";
import { pinWords, stepWords } from "./words";

/** True while the guide leads, so that Enter and Escape can mean it. */
const GUIDING = "mendlog.guiding";

export interface GuidanceStep {
  readonly uri: string;
  /** Undefined where nothing is left to read. */
  readonly guide: Guide | undefined;
}

const steps = new EventEmitter<GuidanceStep>();
/** The next reading, whenever it was worked out. */
export const onStep = steps.event;

let leads = false;
/** True while the cursor is led: what else moves it then leaves it where it is. */
export const isGuiding = (): boolean => leads;

/** How many want to hear of the next reading without being led to it. */
let watchers = 0;
/** Has the next reading looked up after every verdict until it is disposed of, though nobody is being led. */
export function watchSteps(): Disposable {
  watchers += 1;
  return new Disposable(() => {
    watchers -= 1;
  });
}

/** The commands that lead from reading to reading, and what keeps them on the log in front. */
export const guide: Feature = (mendlog) => {
  const leader = new Leader(mendlog);
  return Disposable.from(
    leader,
    commands.registerCommand("mendlog.guide", () => leader.begin()),
    commands.registerCommand("mendlog.stopGuide", () => leader.end()),
    commands.registerCommand("mendlog.nextStep", () => leader.look()),
    onVerdict(({ uri }) => leader.read(uri)),
    window.onDidChangeActiveTextEditor((editor) => leader.follow(editor)),
    workspace.onDidCloseTextDocument((document) => leader.closed(document.uri.toString())),
  );
};

class Leader implements Disposable {
  readonly #mendlog: Mendlog;
  readonly #item = window.createStatusBarItem("mendlog.guide", StatusBarAlignment.Left, 11);
  /** The log that the cursor is led in. */
  #log: string | undefined;
  #asked = 0;
  /** The document's version as the cursor was last led: a later one holds what was typed since. */
  #ledTo = -1;

  constructor(mendlog: Mendlog) {
    this.#mendlog = mendlog;
    this.#item.name = l10n.t("The next reading");
    this.#item.command = "mendlog.stopGuide";
  }

  async begin(): Promise<void> {
    const editor = window.activeTextEditor;
    if (!editor || !holdsLog(editor.document)) {
      void window.showWarningMessage(l10n.t("Open a repair log to be guided through it."));
      return;
    }
    await this.#mendlog.start();
    const uri = editor.document.uri.toString();
    const goesOn = this.#log === uri && this.#ledTo !== editor.document.version;
    this.#log = uri;
    this.#setLeads(true);
    await this.#lead(editor, goesOn);
  }

  /** Nothing is lost by it: what was made stays, and an empty row is a row to fill in. */
  end(): void {
    this.#log = undefined;
    this.#asked += 1;
    this.#setLeads(false);
    this.#item.hide();
  }

  /** A reading came into its cell. */
  async read(uri: string): Promise<void> {
    const editor = window.activeTextEditor;
    const isHere = editor?.document.uri.toString() === uri;
    if (editor && isHere && this.#log === uri)
      return this.#lead(editor, this.#ledTo !== editor.document.version);
    if (watchers > 0 && editor && isHere) await this.look();
  }

  /** Says what comes next, and leaves the cursor alone. */
  async look(): Promise<void> {
    const editor = window.activeTextEditor;
    if (!editor || !holdsLog(editor.document)) return;
    await this.#mendlog.start();
    const uri = editor.document.uri.toString();
    const found = await this.#ask(editor);
    if (found !== "overtaken") steps.fire({ uri, guide: found });
  }

  follow(editor: TextEditor | undefined): void {
    const uri = editor?.document.uri.toString();
    // A look at something else does not end it; another log does.
    if (editor && this.#log !== undefined && uri !== this.#log && holdsLog(editor.document)) this.end();
    else if (uri === this.#log && this.#log !== undefined) this.#item.show();
    else this.#item.hide();
    if (watchers > 0 && this.#log === undefined) void this.look();
  }

  closed(uri: string): void {
    if (uri === this.#log) this.end();
  }

  async #ask(editor: TextEditor): Promise<Guide | undefined | "overtaken"> {
    this.#asked += 1;
    const own = this.#asked;
    const { line, character } = editor.selection.active;
    const uri = editor.document.uri.toString();
    const found = await this.#mendlog.request(GUIDE, { uri, position: { line, character } });
    return own === this.#asked ? (found ?? undefined) : "overtaken";
  }

  /** @param goesOn true where a reading was typed since: what leads on from it is undone with it */
  async #lead(editor: TextEditor, goesOn: boolean): Promise<void> {
    const uri = editor.document.uri.toString();
    const { document } = editor;
    let found: Guide | undefined;
    let overtaken = false;
    const ask = async (): Promise<Typed | null> => {
      const answer = await this.#ask(editor);
      overtaken = answer === "overtaken";
      found = answer === "overtaken" ? undefined : answer;
      return found?.cell && found.version === document.version ? found.cell : null;
    };
    const placed = await placeInEditor(editor, ask);
    this.#ledTo = document.version;
    // An edit from outside the window is a step of its own, so undo is told to take the reading back with it.
    if (goesOn && placed === "done" && found?.cell?.edits.length)
      ledOn.fire({ document, line: editor.selection.active.line });
    if (overtaken || this.#log !== uri || placed === "gone") return;
    steps.fire({ uri, guide: found });
    if (!found) {
      void window.showInformationMessage(
        l10n.t("No further reading tells more, and no cell is empty. That proves no part."),
      );
      return this.end();
    }
    this.#show(found);
  }

  #show(found: Guide): void {
    const icon = found.kind === "check" ? "warning" : "target";
    const words =
      found.kind !== "check"
        ? stepWords(found)
        : [l10n.t("Check this table first"), ...(found.ref === undefined ? [] : [stepWords(found)])].join(
            " · ",
          );
    this.#item.text = `$(${icon}) ${words}`;
    this.#item.tooltip = [
      ...found.cautions,
      found.action,
      ...(found.expect === undefined ? [] : [found.expect]),
      l10n.t("Click or Escape ends the guide."),
    ].join("\n\n");
    // A screen reader says it when it changes.
    this.#item.accessibilityInformation = {
      label: [
        ...found.cautions,
        found.kind === "check" ? found.action : `${pinWords(found)}. ${found.expect ?? found.action}`,
      ].join(" "),
      role: "status",
    };
    this.#item.show();
  }

  #setLeads(now: boolean): void {
    leads = now;
    void commands.executeCommand("setContext", GUIDING, now);
  }

  dispose(): void {
    this.end();
    this.#item.dispose();
  }
}
