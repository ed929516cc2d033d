// The server in this process, in front of files in memory: every message goes through the protocol's own library, and
// what the server does can be counted. Nothing is timed: the clock that tells the server to let others in goes on by
// more than a stint whenever it is looked at, so that a step of work is a turn and a turn is a step.
import { PassThrough } from "node:stream";
import { vi } from "vitest";
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-jsonrpc/node";
import { createConnection, ProposedFeatures } from "vscode-languageserver";
import { createProtocolConnection, type InitializeResult } from "vscode-languageserver-protocol/node";
import { createServer } from "../../server/src/protocol/server";
import type { ServerHost } from "../../server/src/protocol/server-host";

/** Milliseconds by which the clock goes on when it is looked at. */
const TICK = 10;

/** What was done so far, whoever asked for it. */
export class Work {
  /** Looks at the clock: one or two for each step of what is done in steps. */
  ticks = 0;
  /** Files read or looked for. */
  files = 0;
  /** Hears of every one of them. */
  onMore: () => void = () => {};

  get all(): number {
    return this.ticks + this.files;
  }

  more(kind: "ticks" | "files"): void {
    this[kind] += 1;
    this.onMore();
  }
}

const REAL_NOW = Date.now;

/** The clocks of this process, until `vi.restoreAllMocks`. */
export function countingClock(work: () => Work | undefined): { skip(milliseconds: number): void } {
  let now = 0;
  let skipped = 0;
  vi.spyOn(performance, "now").mockImplementation(() => {
    now += TICK;
    work()?.more("ticks");
    return now;
  });
  vi.spyOn(Date, "now").mockImplementation(() => REAL_NOW() + skipped);
  return {
    skip(milliseconds) {
      skipped += milliseconds;
    },
  };
}

export interface InProcess {
  readonly client: MessageConnection;
  readonly work: Work;
  readonly initialized: InitializeResult;
  /** Every request the server has a handler for. */
  readonly methods: ReadonlySet<string>;
  /** What it told its log. */
  readonly log: readonly string[];
  /** Requests it made of the client. */
  readonly asked: readonly string[];
  end(): Promise<void>;
}

const turn = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** Lets everybody have turns until nothing is done any more. */
export async function idle({ work }: { readonly work: Work }): Promise<void> {
  for (let still = 0; still < 30; ) {
    const before = work.all;
    await turn();
    still = before === work.all ? still + 1 : 0;
  }
}

export interface Files {
  readonly texts: ReadonlyMap<string, string>;
  readonly folder: string;
  /** The list of files is held back until this resolves. */
  readonly gate?: Promise<void>;
}

/** @param capabilities of the client */
export async function startInProcess(
  { texts, folder, gate }: Files,
  capabilities: object,
  options: object,
): Promise<InProcess> {
  const toServer = new PassThrough();
  const toClient = new PassThrough();
  const work = new Work();
  const methods = new Set<string>();
  const log: string[] = [];
  const asked: string[] = [];

  const serverSide = createConnection(
    () => {
      const connection = createProtocolConnection(toServer, toClient);
      const onRequest = connection.onRequest.bind(connection) as (...args: unknown[]) => never;
      connection.onRequest = (type: unknown, ...rest: unknown[]) => {
        const method = typeof type === "string" ? type : (type as { method?: string }).method;
        if (method !== undefined) methods.add(method);
        return onRequest(type, ...rest);
      };
      return connection;
    },
    { shutdownReceived: false, initialize: () => {}, exit: () => {} },
    ProposedFeatures.all,
  );
  // A disk takes its time, and others have theirs meanwhile.
  const disk = async <R>(answer: R): Promise<R> => {
    work.more("files");
    await turn();
    return answer;
  };
  const host: ServerHost = {
    read: (uri) => disk(texts.get(uri)),
    async list() {
      await gate;
      return [...texts.keys()];
    },
    readBytes: (uri) =>
      disk(texts.has(uri) ? { ok: true, bytes: new Uint8Array(4) } : { ok: false, reason: "absent" }),
    setFolders() {},
    fileChanged() {},
    docsPage: () => undefined,
  };
  createServer(serverSide, () => host, { name: "Mendlog", version: "0" });

  const client = createMessageConnection(
    new StreamMessageReader(toClient),
    new StreamMessageWriter(toServer),
  );
  client.onNotification("window/logMessage", ({ message }: { message: string }) => {
    log.push(message);
  });
  client.onNotification((method) => {
    asked.push(method);
  });
  client.onRequest((method, params) => {
    asked.push(method);
    if (method === "workspace/configuration") {
      return (params as { items: unknown[] }).items.map(() => null);
    }
    return method === "workspace/applyEdit" ? { applied: true } : null;
  });
  client.listen();
  const initialized = await client.sendRequest<InitializeResult>("initialize", {
    processId: null,
    rootUri: folder,
    workspaceFolders: [{ uri: folder, name: "bench" }],
    capabilities,
    initializationOptions: options,
  });
  await client.sendNotification("initialized", {});
  return {
    client,
    work,
    initialized,
    methods,
    log,
    asked,
    async end() {
      await client.sendRequest("shutdown");
      await idle({ work });
      client.dispose();
      toServer.destroy();
      toClient.destroy();
    },
  };
}
