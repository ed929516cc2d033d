import type { Readable } from "node:stream";
import {
  AbstractMessageReader,
  type DataCallback,
  Disposable,
  type Message,
  type MessageReader,
  type ResponseMessage,
} from "vscode-languageserver/node";
import { frames } from "./frames";
import { readMessage } from "./message";

/** Milliseconds in which the rest of a message comes; also a slow client's, whose message is then still taken. */
const PATIENCE = 10_000;

export interface Framing {
  /** @param sentence for whoever runs the server: nothing of it is for the client */
  tell(sentence: string): void;
  /** Answers what could not be read as a message. */
  answer(response: ResponseMessage): void;
  /** A message came. It is handed on when this resolves, where it gives something to wait for. */
  came(message: Message): Promise<void> | undefined;
  /** Nothing more comes. `broken` where that was not between two messages; `shutDown` where the client asked for it. */
  end(how: { readonly broken: boolean; readonly shutDown: boolean }): void;
}

/**
 * Reads the client's messages from a stream. The library's own reader waits without a word where a header has no length or a
 * wrong one; this one says so and ends, since nobody can tell any more where the next message begins.
 */
export class FramedReader extends AbstractMessageReader implements MessageReader {
  readonly #stream: Readable;
  readonly #framing: Framing;
  readonly #patience: number;
  #waiting: NodeJS.Timeout | undefined;

  constructor(stream: Readable, framing: Framing, patience = PATIENCE) {
    super();
    this.#stream = stream;
    this.#framing = framing;
    this.#patience = patience;
  }

  override listen(callback: DataCallback): Disposable {
    const { tell, answer, came, end } = this.#framing;
    const cut = frames();
    let shutDown = false;
    let ended = false;
    const finish = (broken: boolean): void => {
      if (ended) return;
      ended = true;
      this.#stopWaiting();
      end({ broken, shutDown });
    };
    const take = (chunk: Uint8Array): void => {
      for (const frame of cut.push(chunk)) {
        this.#stopWaiting();
        if (frame.is === "fault") {
          tell(`The client sent what is no message: ${frame.says}. The connection is ended.`);
          finish(true);
          return;
        }
        const read = readMessage(frame);
        if (read.is === "wrong") answer(read.answer);
        else {
          shutDown ||= "method" in read.message && read.message.method === "shutdown";
          const { message } = read;
          const wait = came(message);
          if (wait) void wait.then(() => callback(message));
          else callback(message);
        }
      }
      if (cut.begun() !== undefined) this.#wait(cut.begun);
    };
    const over = (): void => {
      const begun = cut.begun();
      if (begun !== undefined && !ended)
        tell(`The client's stream ended within a message, after ${begun}. The connection is ended.`);
      finish(begun !== undefined);
    };
    const failed = (error: Error): void => this.fireError(error);
    this.#stream.on("data", take).on("end", over).on("close", over).on("error", failed);
    return Disposable.create(() => {
      this.#stopWaiting();
      this.#stream.off("data", take).off("end", over).off("close", over).off("error", failed);
    });
  }

  override dispose(): void {
    this.#stopWaiting();
    super.dispose();
  }

  /** Says once of a message that its rest does not come. */
  #wait(begun: () => string | undefined): void {
    this.#waiting ??= setTimeout(() => {
      const came = begun();
      if (came !== undefined)
        this.#framing.tell(
          `The rest of a message has not come for ${this.#patience / 1000} s: there are ${came}. Is its Content-Length right?`,
        );
    }, this.#patience);
  }

  #stopWaiting(): void {
    clearTimeout(this.#waiting);
    this.#waiting = undefined;
  }
}
