import { existsSync } from "node:fs";
import { isAbsolute, join } from "node:path";
import { setFlagsFromString } from "node:v8";
import {
  createConnection,
  type InitializeParams,
  IPCMessageReader,
  IPCMessageWriter,
  Message,
  ProposedFeatures,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { version } from "../../../package.json";
import { visible } from "../text/terminal";
import { LogThreads } from "../threads/log-threads";
import type { Host } from "../workspace/host";
import { nodeHost, uriOf } from "../workspace/node-host";
import { ParseThread } from "../workspace/parse-thread";
import { FramedReader } from "./framing/reader";
import { type Unanswered, unanswered } from "./framing/unanswered";
import { refuseWrongParams } from "./params";
import { createServer } from "./server";
import type { HostFactory } from "./server-host";

/**
 * Percent that what is held may grow by before the engine clears memory, in each thread. It would let it double and more: with ten
 * thousand logs that is a hundred megabytes of waste.
 */
const GROWTH = 15;

export interface RunOptions {
  readonly transport: "stdio" | "ipc";
  /** The file that is being run; begun as a thread, it has to call `runParseThread` or `runLogThread`. */
  readonly program: string;
  /** Where what is remembered, and what was found, lies until the next start. */
  readonly shelves?: (of: {
    readonly folders: readonly string[];
    readonly storage: string | undefined;
  }) => Pick<Host, "shelf" | "findings">;
}

/**
 * Runs the language server in this process, which ends with it: status 0 after a `shutdown` request, else 1; also 1 where
 * the client's stream ends within a message or cannot be cut into messages.
 * On stdio everything written to the console goes to standard error, since standard output belongs to the client.
 */
export function runServer({ transport, program, shelves }: RunOptions): void {
  setFlagsFromString(`--heap-growing-percent=${GROWTH}`);
  const [reader, writer] =
    transport === "stdio" ? stdio() : [new IPCMessageReader(process), new IPCMessageWriter(process)];
  const connection = createConnection(ProposedFeatures.all, reader, writer, {
    messageStrategy: refuseWrongParams,
  });
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

  createServer(connection, hostsFor(program, shelves), { name: "Mendlog", version });
}

/** Writes the server's messages, and tells which requests are answered by them. */
class CountingWriter extends StreamMessageWriter {
  readonly #open: Unanswered;

  constructor(stream: NodeJS.WritableStream, open: Unanswered) {
    super(stream);
    this.#open = open;
  }

  override async write(message: Message): Promise<void> {
    await super.write(message);
    this.#open.written(message);
  }
}

/** Standard input and output, with an end to the process where nothing more can come. */
function stdio(): [FramedReader, StreamMessageWriter] {
  const open = unanswered();
  const writer = new CountingWriter(process.stdout, open);
  const reader = new FramedReader(process.stdin, {
    tell: (sentence) => console.error(`mendlog: ${visible(sentence)}`),
    answer: (response) => void writer.write(response),
    came(message) {
      open.came(message);
      // The library ends the process on it, also where the client did not wait for its last answers.
      return Message.isNotification(message) && message.method === "exit" ? open.settled() : undefined;
    },
    end({ broken, shutDown }) {
      void open.settled().then(() => process.exit(shutDown && !broken ? 0 : 1));
    },
  });
  return [reader, writer];
}

const isGone = (error: unknown): boolean =>
  error instanceof Error &&
  "code" in error &&
  ["EPIPE", "ERR_STREAM_DESTROYED", "ERR_IPC_CHANNEL_CLOSED"].includes(String(error.code));

const hostsFor =
  (program: string, shelves: RunOptions["shelves"]): HostFactory =>
  (say, params) => {
    const kept = shelves?.({
      folders: foldersOf(params),
      storage: storageIn(params.initializationOptions),
    });
    const pages = new Map<string, string | undefined>();
    const host = nodeHost([], say);
    const threads = new LogThreads(program);
    return {
      ...host,
      setFolders(uris) {
        host.setFolders(uris);
        threads.setFolders(uris);
      },
      elsewhere: new ParseThread(program),
      summing: threads,
      checking: threads,
      ...kept,
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

const foldersOf = ({ workspaceFolders, rootUri }: InitializeParams): readonly string[] =>
  workspaceFolders?.map(({ uri }) => uri) ?? (rootUri ? [rootUri] : []);

function storageIn(options: unknown): string | undefined {
  const storage = (options as { readonly storage?: unknown } | undefined)?.storage;
  return typeof storage === "string" && isAbsolute(storage) ? storage : undefined;
}
