import type {
  CancellationToken,
  CompletionContext,
  CompletionItem,
  Disposable,
  Event,
  LogOutputChannel,
  Position,
  ProviderResult,
  TextDocument,
} from "vscode";
import type { OwnRequest } from "../../server/src/protocol/custom-requests/request";

/** What the features of the client share: the server's answers, and where to say what went wrong. */
export interface Mendlog {
  /** True once the server was asked for; a feature that only shows something waits for it. */
  readonly started: boolean;
  readonly onDidStart: Event<void>;
  /**
   * Asks the server, once it runs.
   * @returns null where it has no answer: the document is no log, the request was cancelled or went wrong (the log says why)
   */
  request<P, R>(request: OwnRequest<P, R>, params: P, token?: CancellationToken): Promise<R | null>;
  /**
   * Has the server carry out a command, and starts it first where need be.
   * @returns what the command gives back; null where it was told to the person that nothing was done
   */
  run(command: string, ...args: readonly string[]): Promise<unknown>;
  /** What the server completes there, as the editor's own question would get it. */
  completions(
    document: TextDocument,
    position: Position,
    context: CompletionContext,
    token: CancellationToken,
  ): ProviderResult<CompletionItem[] | { readonly items: CompletionItem[]; readonly isIncomplete?: boolean }>;
  /** Hears of what the server tells unasked, by its method; nothing comes with it. */
  onNotice(method: `mendlog/${string}`, listener: () => void): Disposable;
  /** Starts the server where nothing has asked for it so far. */
  start(): Promise<void>;
  readonly log: LogOutputChannel;
}

/** One feature of the client: what it puts in place, to be taken away again with the extension. */
export type Feature = (mendlog: Mendlog) => { dispose(): unknown };
