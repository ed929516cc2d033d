import type { CancellationToken, MessageConnection } from "vscode-jsonrpc";
import type {
  ClientCapabilities,
  Diagnostic,
  InitializeResult,
  PublishDiagnosticsParams,
  Registration,
  TextDocumentContentChangeEvent,
} from "vscode-languageserver-protocol";

export interface ClientOptions {
  readonly capabilities?: ClientCapabilities;
  readonly initializationOptions?: unknown;
  /** Uris of the workspace's folders. */
  readonly folders?: readonly string[];
  /** By section, or by "section folder-uri" for one folder alone; may be changed later. */
  readonly settings?: Record<string, unknown>;
  readonly command?: readonly string[];
  readonly nodeOptions?: readonly string[];
  /** False leaves `initialize` to the test. */
  readonly ready?: boolean;
}

export interface TestClient {
  readonly connection: MessageConnection;
  readonly initialized: InitializeResult;
  readonly exited: Promise<number | null>;
  readonly log: readonly string[];
  readonly published: readonly PublishDiagnosticsParams[];
  readonly registrations: readonly Registration[];
  readonly progress: readonly { readonly token: unknown; readonly value: unknown }[];
  readonly settings: Record<string, unknown>;
  readonly pid: number;
  readonly refreshes: number;
  readonly stderr: string;
  readonly alive: boolean;
  // biome-ignore lint/suspicious/noExplicitAny: the answer's shape is what a test is about
  request(method: string, params?: unknown, token?: CancellationToken): Promise<any>;
  notify(method: string, params?: unknown): Promise<void>;
  write(bytes: string | Uint8Array): void;
  open(uri: string, text: string, languageId?: string): Promise<void>;
  change(uri: string, version: number, ...changes: TextDocumentContentChangeEvent[]): Promise<void>;
  close(uri: string): Promise<void>;
  until<T>(what: string, look: () => T | undefined): Promise<T>;
  diagnostics(uri: string, version?: number): Promise<Diagnostic[]>;
  stop(): Promise<number | null>;
  kill(): void;
}

export const COMMANDS: { readonly server: readonly string[]; readonly cli: readonly string[] };
export const FULL_CAPABILITIES: ClientCapabilities;
export function startClient(options?: ClientOptions): Promise<TestClient>;
