import type { InitializeParams, WorkspaceFolder } from "vscode-languageserver";
import { canonicalUri } from "../workspace/uri";

/** The folders the client has open. */
export class Folders {
  /** By the uri the core knows, as the client wrote it. */
  readonly #open = new Map<string, string>();
  #settled: Promise<void>;

  /** @param settled resolves when they are read for the first time */
  constructor(params: InitializeParams, settled: Promise<void>) {
    for (const uri of urisOf(params)) this.#open.set(canonicalUri(uri), uri);
    this.#settled = settled;
  }

  /** As the core knows them. */
  uris(): readonly string[] {
    return [...this.#open.keys()];
  }

  /** Each as the core knows it and as the client wrote it. */
  entries(): readonly (readonly [uri: string, clientUri: string])[] {
    return [...this.#open];
  }

  change(added: readonly WorkspaceFolder[], removed: readonly WorkspaceFolder[]): void {
    for (const { uri } of removed) this.#open.delete(canonicalUri(uri));
    for (const { uri } of added) this.#open.set(canonicalUri(uri), uri);
  }

  /** They are being read again. */
  reading(settled: Promise<void>): void {
    this.#settled = settled;
  }

  /** Resolves when they are read and no change of them is under way: until then files and knowledge do not fit together. */
  settled(): Promise<void> {
    return this.#settled;
  }
}

function urisOf({ workspaceFolders, rootUri, rootPath }: InitializeParams): string[] {
  if (workspaceFolders) return workspaceFolders.map(({ uri }) => uri);
  if (rootUri) return [rootUri];
  if (!rootPath) return [];
  const path = rootPath.replaceAll("\\", "/").split("/").map(encodeURIComponent).join("/");
  return [`file://${path.startsWith("/") ? "" : "/"}${path}`];
}
