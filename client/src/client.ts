import {
  type CancellationToken,
  type CompletionItemProvider,
  commands,
  type Disposable,
  EventEmitter,
  type LogOutputChannel,
  l10n,
  type TextDocument,
  window,
} from "vscode";
import {
  type BaseLanguageClient,
  CompletionRequest,
  ExecuteCommandRequest,
  type LanguageClientOptions,
} from "vscode-languageclient";
import type { OwnRequest } from "../../server/src/protocol/custom-requests/request";
import { applyAsTyped } from "./apply-edit";
import { withoutCopies } from "./copies";
import type { Mendlog } from "./mendlog";
import { quiet } from "./quiet-client";
import { withoutBlanks } from "./spacers";
import { wholeLines } from "./taken-line";
import { editorTheme } from "./theme";

const KNOWLEDGE = "**/{*.board.yaml,*.device.yaml,*.procedure.yaml,*.limits.yaml,mendlog.shop.yaml}";
/** Set once the server was asked for, so that its commands only show where they do something. */
const STARTED = "mendlog.started";

/** Makes the library's client, which starts the server in its own way: a process, or a worker of the browser. */
export type MakeClient = (options: LanguageClientOptions) => BaseLanguageClient;

/** The language server of this window. */
export class MendlogClient implements Mendlog {
  readonly #client: BaseLanguageClient;
  readonly log: LogOutputChannel;
  readonly #began = new EventEmitter<void>();
  readonly onDidStart = this.#began.event;
  readonly #notices = new Map<string, EventEmitter<void>>();
  #starting: Promise<void> | undefined;

  /** @param told what the server is told at its start besides */
  constructor(makeClient: MakeClient, log: LogOutputChannel, told: object = {}) {
    this.log = log;
    const options: LanguageClientOptions = {
      // No scheme is named: a file may be remote, unsaved, or come from anywhere else.
      documentSelector: [{ language: "markdown" }, { language: "yaml", pattern: KNOWLEDGE }],
      // The editor draws the images in a hover, where most others would show their source; the command is our own.
      initializationOptions: () => ({
        pictures: true,
        showPlaces: true,
        nextRow: true,
        ownCommands: true,
        suggestAgain: true,
        snippetVariables: true,
        ...editorTheme(),
        ...told,
      }),
      outputChannel: log,
      // The findings that are asked for are kept under the server's own name for them, by which a task's findings of the same
      // log give way to them; this is for what it sends unasked.
      diagnosticCollectionName: "mendlog-published",
      diagnosticPullOptions: { onChange: true, onFocus: true },
      middleware: {
        ...withoutCopies,
        ...wholeLines,
        workspace: { handleApplyEdit: applyAsTyped },
        provideInlayHints: withoutBlanks,
      },
    };
    this.#client = quiet(makeClient(options));
  }

  get started(): boolean {
    return this.#starting !== undefined;
  }

  start(): Promise<void> {
    this.#starting ??= this.#start();
    return this.#starting;
  }

  async #start(): Promise<void> {
    await this.#tell(l10n.t("Mendlog's checker did not start. Its messages say why."), () =>
      this.#client.start(),
    );
    await commands.executeCommand("setContext", STARTED, true);
    this.#began.fire();
  }

  async run(command: string, ...args: readonly string[]): Promise<unknown> {
    await this.start();
    try {
      if (this.#client.isRunning())
        return await this.#client.sendRequest(ExecuteCommandRequest.type, { command, arguments: [...args] });
    } catch (error) {
      this.log.error(`${command}: ${error}`);
    }
    void window.showErrorMessage(
      l10n.t("The checker did not answer, so nothing was done. Its messages say why."),
    );
    return null;
  }

  async request<P, R>({ method }: OwnRequest<P, R>, params: P, token?: CancellationToken): Promise<R | null> {
    if (!this.#starting) return null;
    await this.#starting;
    if (!this.#client.isRunning()) return null;
    try {
      // A token that is not there would be sent along as a second parameter.
      return token
        ? await this.#client.sendRequest<R | null>(method, params, token)
        : await this.#client.sendRequest<R | null>(method, params);
    } catch (error) {
      if (!token?.isCancellationRequested && this.#client.isRunning()) this.log.error(`${method}: ${error}`);
      return null;
    }
  }

  completions: Mendlog["completions"] = (document, position, context, token) => {
    return this.#completionsOf(document)?.provideCompletionItems(document, position, token, context);
  };

  #completionsOf = (document: TextDocument): CompletionItemProvider | undefined =>
    this.#client.isRunning()
      ? this.#client.getFeature(CompletionRequest.method).getProvider(document)
      : undefined;

  /** Answers what the server asks of this side. */
  answer<P, R>({ method }: OwnRequest<P, R>, how: (params: P) => Promise<R | null>): void {
    this.#client.onRequest<unknown, unknown>(method, (params) => how(params as P));
  }

  onNotice(method: `mendlog/${string}`, listener: () => void): Disposable {
    let heard = this.#notices.get(method);
    if (!heard) {
      // The client keeps one handler a method: a second one would take the place of the first.
      const notice = new EventEmitter<void>();
      this.#client.onNotification(method, () => notice.fire());
      this.#notices.set(method, notice);
      heard = notice;
    }
    return heard.event(listener);
  }

  async restart(): Promise<void> {
    if (!this.#starting) return this.start();
    // One after the other, and what is asked meanwhile waits for it.
    this.#starting = this.#starting.then(() =>
      this.#tell(l10n.t("Mendlog's checker did not restart. Its messages say why."), async () => {
        await this.#client.stop();
        await this.#client.start();
      }),
    );
    await this.#starting;
  }

  async dispose(): Promise<void> {
    this.#began.dispose();
    for (const notice of this.#notices.values()) notice.dispose();
    // The library cannot end what is only just starting.
    await this.#starting;
    await this.#client.dispose();
  }

  async #tell(sorry: string, action: () => Promise<void>): Promise<void> {
    try {
      await action();
    } catch (error) {
      this.log.error(error instanceof Error ? error : String(error));
      void window.showErrorMessage(sorry);
    }
  }
}
