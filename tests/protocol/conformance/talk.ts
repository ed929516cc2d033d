// A client that keeps every message as it came over the pipe, and answers what the server asks of it.
import { spawn } from "node:child_process";
import { StreamMessageReader, StreamMessageWriter } from "vscode-jsonrpc/node";
import type {
  Message,
  NotificationMessage,
  RequestMessage,
  ResponseMessage,
} from "vscode-languageserver-protocol/node";
import { COMMANDS } from "../client.js";

// biome-ignore lint/suspicious/noExplicitAny: what is in an answer is for the schemas to say
type Any = any;

export interface Talk {
  /** The answer as it came, with its result or its error. */
  ask(method: string, params?: unknown): Promise<ResponseMessage>;
  /** Sends a request and cancels it in the same breath. */
  askAndCancel(method: string, params: unknown): Promise<ResponseMessage>;
  tell(method: string, params?: unknown): Promise<void>;
  /** Requests and notifications of the server, in order. */
  readonly heard: readonly (RequestMessage | NotificationMessage)[];
  /** Our requests with their answers. */
  readonly answered: readonly { readonly method: string; readonly response: ResponseMessage }[];
  /** Resolves when the server has sent such a message. */
  until(method: string): Promise<void>;
  end(): void;
}

/** A message as it goes over a pipe. */
function framed(message: object): string {
  const body = JSON.stringify({ jsonrpc: "2.0", ...message });
  return `Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`;
}

/** @param reply what the client answers the server's requests with */
export function talk(reply: (method: string, params: Any) => unknown): Talk {
  const child = spawn(process.execPath, COMMANDS.server, { stdio: ["pipe", "pipe", "inherit"] });
  const reader = new StreamMessageReader(child.stdout);
  const writer = new StreamMessageWriter(child.stdin);
  const heard: (RequestMessage | NotificationMessage)[] = [];
  const answered: { method: string; response: ResponseMessage }[] = [];
  const open = new Map<unknown, { method: string; resolve: (response: ResponseMessage) => void }>();
  const watchers = new Set<() => void>();
  let last = 0;
  // Whoever is gone takes no more.
  const write = (message: Message): Promise<void> => writer.write(message).catch(() => {});
  reader.listen((message: Message) => {
    if ("method" in message) {
      const asked = message as RequestMessage;
      heard.push(asked);
      if (asked.id !== undefined && asked.id !== null)
        void write({
          jsonrpc: "2.0",
          id: asked.id,
          result: reply(asked.method, asked.params) ?? null,
        } as ResponseMessage);
    } else {
      const response = message as ResponseMessage;
      const asked = open.get(response.id);
      open.delete(response.id);
      if (asked) answered.push({ method: asked.method, response });
      asked?.resolve(response);
    }
    for (const watcher of watchers) watcher();
  });
  const send = (message: object) => write({ jsonrpc: "2.0", ...message } as Message);
  const request = (method: string, params: unknown) => {
    const id = ++last;
    const answer = new Promise<ResponseMessage>((resolve) => open.set(id, { method, resolve }));
    return { id, answer, sent: send(params === undefined ? { id, method } : { id, method, params }) };
  };
  return {
    heard,
    answered,
    ask: (method, params) => request(method, params).answer,
    askAndCancel(method, params) {
      const id = ++last;
      const answer = new Promise<ResponseMessage>((resolve) => open.set(id, { method, resolve }));
      // In one piece: a server that reads the one before the other comes has answered by then.
      child.stdin.write(
        framed({ id, method, params }) + framed({ method: "$/cancelRequest", params: { id } }),
      );
      return answer;
    },
    tell: (method, params) => send(params === undefined ? { method } : { method, params }),
    until: (method) =>
      new Promise((resolve) => {
        const look = (): void => {
          if (!heard.some((message) => message.method === method)) return;
          watchers.delete(look);
          resolve();
        };
        watchers.add(look);
        look();
      }),
    end() {
      reader.dispose();
      child.kill("SIGKILL");
    },
  };
}
