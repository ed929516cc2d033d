// A folder on disk with a client in front of it: the server is a process of its own and reads real files.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import type { Position } from "vscode-languageserver-protocol";
import { EXAMPLE_BOARD, exampleLog } from "../../server/src/checks/example-board";
import { uriOf } from "../../server/src/workspace/node-host";
import { type ClientOptions, startClient, type TestClient } from "./client.js";

export interface Bench {
  readonly client: TestClient;
  readonly root: string;
  uri(path: string): string;
  /** Writes a file behind the editor's back. */
  write(path: string, text: string | Uint8Array): void;
  remove(path: string): void;
  /** Tells the server what a watcher would. 1 made, 2 changed, 3 deleted. */
  watched(path: string, type: 1 | 2 | 3): Promise<void>;
  end(): void;
}

/** `files`: `//- path` lines separate files; text before the first is left out. A board file is always there. */
export async function startBench(files: string, options: ClientOptions = {}): Promise<Bench> {
  const folder = mkdtempSync(join(tmpdir(), "mendlog protocol (ö) "));
  const write = (path: string, text: string | Uint8Array) => {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  };
  write("example.board.yaml", EXAMPLE_BOARD);
  for (const [path, text] of splitFiles(files)) write(path, text);
  const root = uriOf(folder);
  const client = await startClient({ folders: [root], ...options });
  const uri = (path: string) => uriOf(join(folder, path));
  return {
    client,
    root,
    uri,
    write,
    remove: (path) => rmSync(join(folder, path)),
    watched: (path, type) =>
      client.notify("workspace/didChangeWatchedFiles", { changes: [{ uri: uri(path), type }] }),
    end() {
      client.kill();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export function splitFiles(files: string): [path: string, text: string][] {
  return files
    .split(/^\/\/- /m)
    .slice(1)
    .map((part) => {
      const end = part.indexOf("\n");
      return [part.slice(0, end).trim(), part.slice(end + 1)];
    });
}

/** Takes the `$0` out of a text and says where it stood. */
export function cursor(marked: string): { text: string; position: Position } {
  const at = marked.indexOf("$0");
  if (at < 0) throw new Error("The text has no $0.");
  const before = marked.slice(0, at);
  const lines = before.split("\n");
  return {
    text: before + marked.slice(at + 2),
    position: { line: lines.length - 1, character: lines.at(-1)!.length },
  };
}

/** A log with two findings: an open clamp and a part that is not on the board. */
export const FAULTY = exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
| U14 | 2   | 1.42    |
| U41 | 3   | 0.57    |
`);

/** The same with nothing to say about it. */
export const CLEAN = FAULTY.replace("1.42", "0.59").replace("U41", "U14");

export const codesOf = (diagnostics: readonly { readonly code?: number | string }[]) =>
  diagnostics.map(({ code }) => code).sort();
