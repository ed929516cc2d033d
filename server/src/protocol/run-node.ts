import { existsSync } from "node:fs";
import { join } from "node:path";
import {
  createConnection,
  IPCMessageReader,
  IPCMessageWriter,
  ProposedFeatures,
} from "vscode-languageserver/node";
import { version } from "../../../package.json";
import { nodeHost, uriOf } from "../workspace/node-host";
import { refuseWrongParams } from "./params";
import { createServer } from "./server";
import type { HostFactory } from "./server-host";

export interface RunOptions {
  readonly transport: "stdio" | "ipc";
}

/**
 * Runs the language server in this process, which ends with it: status 0 after a `shutdown` request, else 1.
 * On stdio everything written to the console goes to standard error, since standard output belongs to the client.
 */
export function runServer({ transport }: RunOptions): void {
  const options = { messageStrategy: refuseWrongParams };
  const connection =
    transport === "stdio"
      ? createConnection(ProposedFeatures.all, process.stdin, process.stdout, options)
      : createConnection(
          ProposedFeatures.all,
          new IPCMessageReader(process),
          new IPCMessageWriter(process),
          options,
        );
  if (transport === "stdio") console.log = console.info = console.debug = console.error;
  else process.on("disconnect", () => process.exit(1));

  const fault = (error: unknown): void => {
    // The client went away without a word: there is nobody left to serve.
    if (isGone(error)) process.exit(1);
    console.error(error);
    connection.console.error(error instanceof Error ? (error.stack ?? error.message) : String(error));
  };
  process.on("uncaughtException", fault);
  process.on("unhandledRejection", fault);

  createServer(connection, makeHost, { name: "Mendlog", version });
}

const isGone = (error: unknown): boolean =>
  error instanceof Error &&
  "code" in error &&
  ["EPIPE", "ERR_STREAM_DESTROYED", "ERR_IPC_CHANNEL_CLOSED"].includes(String(error.code));

const makeHost: HostFactory = (say) => {
  const pages = new Map<string, string | undefined>();
  return {
    ...nodeHost([], say),
    docsPage(code) {
      if (!pages.has(code)) {
        // Beside the folder the bundle lies in, as it is packaged.
        const path = join(__dirname, "..", "docs", "checks", `${code}.md`);
        pages.set(code, existsSync(path) ? uriOf(path) : undefined);
      }
      return pages.get(code);
    },
  };
};
