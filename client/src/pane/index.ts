// A pane to be read from the bench, two metres away: the reading just taken with its verdict, and the pin to touch next.
import { commands, Disposable, env, l10n, ViewColumn, type WebviewPanel, window, workspace } from "vscode";
import { verdictShape } from "../../../server/src/pictures/marks";
import type { Guide } from "../../../server/src/protocol/custom-requests/guide";
import { onStep, watchSteps } from "../guide";
import { pinWords } from "../guide/words";
import { type LastVerdict, onVerdict } from "../last-verdict";
import type { Feature } from "../mendlog";
import { alarmLevel } from "../verdict";
import { type CueSetting, cueNow } from "./cue";
import { type PaneContent, type PaneWords, paneBody, panePage, paneSpeech } from "./html";
import { SCRIPT } from "./script";
import { PANE_STYLE } from "./style";

/** The command that opens the pane. There is one at most: asked for again, it comes to the front. */
export const pane: Feature = () => {
  let open: Pane | undefined;
  return Disposable.from(
    commands.registerCommand("mendlog.showPane", async () => {
      if (open) return open.reveal();
      open = new Pane(() => {
        open = undefined;
      });
      await commands.executeCommand("mendlog.nextStep");
    }),
    new Disposable(() => open?.dispose()),
  );
};

class Pane implements Disposable {
  readonly #panel: WebviewPanel;
  readonly #listening: Disposable;
  #reading: LastVerdict | undefined;
  #next: Guide | undefined;

  constructor(gone: () => void) {
    const title = l10n.t("At the bench");
    this.#panel = window.createWebviewPanel(
      "mendlog.pane",
      title,
      { viewColumn: ViewColumn.Beside, preserveFocus: true },
      { enableScripts: true, localResourceRoots: [] },
    );
    this.#listening = Disposable.from(
      watchSteps(),
      onVerdict((told) => {
        this.#reading = told;
        this.#show(true);
      }),
      onStep(({ guide }) => {
        this.#next = guide;
        this.#show(false);
      }),
      this.#panel.webview.onDidReceiveMessage(() => this.#show(false)),
      this.#panel.onDidDispose(() => {
        this.#listening.dispose();
        gone();
      }),
    );
    this.#panel.webview.html = panePage(title, PANE_STYLE, SCRIPT, nonce());
  }

  reveal(): void {
    this.#panel.reveal(undefined, true);
  }

  /** @param isNew true where a reading has just come, false where the pin that comes next has */
  #show(isNew: boolean): void {
    const shown = shownOf(this.#reading, this.#next);
    const words = paneWords();
    const cue = workspace.getConfiguration("mendlog").get<CueSetting>("guide.cue") ?? "off";
    void this.#panel.webview.postMessage({
      body: paneBody(shown, words),
      speech: paneSpeech(shown, words),
      language: env.language,
      level: this.#reading ? alarmLevel(this.#reading.verdict.verdict) : "calm",
      cue: cueNow(cue, isNew),
    });
  }

  dispose(): void {
    this.#panel.dispose();
  }
}

function shownOf(reading: LastVerdict | undefined, next: Guide | undefined): PaneContent {
  const { verdict, words, sentence } = reading?.verdict ?? {};
  return {
    ...(reading && verdict && words !== undefined && sentence !== undefined
      ? { reading: { text: reading.text, verdict, shape: verdictShape(verdict), words, sentence } }
      : {}),
    ...(next ? { next: nextOf(next) } : {}),
  };
}

function nextOf(next: Guide): NonNullable<PaneContent["next"]> {
  const named = next.net ?? next.name;
  return {
    title:
      next.kind === "check" && next.ref === undefined ? l10n.t("Check this table first") : pinWords(next),
    ...(named === undefined ? {} : { name: named }),
    ...(next.window === undefined ? {} : { expect: next.window }),
    ...(next.kind === "fill" || next.ref === undefined ? {} : { action: next.action }),
    cautions: next.cautions,
    ...(next.picture ? { picture: next.picture } : {}),
  };
}

const paneWords = (): PaneWords => ({
  title: l10n.t("The reading just taken"),
  noReading: l10n.t("No reading yet: type one into its cell, or read the meter."),
  next: l10n.t("Next"),
  nothingNext: l10n.t("Nothing more to read. That proves no part."),
  expect: l10n.t("Expect"),
  caution: l10n.t("Caution:"),
});

const nonce = (): string =>
  Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, "0")).join(
    "",
  );
