import type { InitializeParams } from "vscode-languageserver";
import type { Host } from "../workspace/host";

/** A host that is told which folders the client has open and what changes in them. */
export interface ServerHost extends Host {
  setFolders(uris: readonly string[]): void;
  fileChanged(uri: string, exists: boolean): void;
  /** The uri of the page that explains a check, undefined where there is none. */
  docsPage(code: string): string | undefined;
}

/** Makes the host; what it has to say goes to the client's log. */
export type HostFactory = (say: (message: string) => void, params: InitializeParams) => ServerHost;
