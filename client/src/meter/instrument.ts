// One instrument on the network, asked one question at a time. Free of the editor, so that tests can hold it against a
// simulated instrument.
import { connect, type Socket } from "node:net";
import type { Address } from "./address";
import { type Failure, LONGEST, type ReadingSource, type SourceAnswer, sourceFailed } from "./source";

interface Waiting {
  readonly settle: (answer: SourceAnswer) => void;
  text: string;
}

/**
 * Messages end with a line feed both ways (IEEE 488.2, as carried over a raw socket by custom). The connection is kept
 * for the next question. After anything but an answer it is dropped: an answer that comes too late must never be taken
 * for that to the next question.
 */
export class Instrument implements ReadingSource {
  readonly #address: Address;
  #socket: Socket | undefined;
  #waiting: Waiting | undefined;
  #turn: Promise<unknown> = Promise.resolve();

  constructor(address: Address) {
    this.#address = address;
  }

  /**
   * Sends a query and waits for its answer; queries wait for each other.
   * @param timeout milliseconds, for connecting and answering together
   */
  ask(query: string, timeout: number, signal?: AbortSignal): Promise<SourceAnswer> {
    const turn = this.#turn.then(() => this.#exchange(query, timeout, signal));
    this.#turn = turn;
    return turn;
  }

  /** Sends what has no answer, where a connection stands. */
  tell(message: string): void {
    this.#socket?.write(`${message}\n`);
  }

  dispose(): void {
    this.#drop({ kind: "cancelled" });
  }

  #exchange(query: string, timeout: number, signal?: AbortSignal): Promise<SourceAnswer> {
    if (signal?.aborted) return Promise.resolve(sourceFailed({ kind: "cancelled" }));
    return new Promise((resolve) => {
      const timer = setTimeout(() => this.#drop({ kind: "silent", after: timeout }), timeout);
      const cancel = () => this.#drop({ kind: "cancelled" });
      signal?.addEventListener("abort", cancel, { once: true });
      const settle = (answer: SourceAnswer) => {
        clearTimeout(timer);
        signal?.removeEventListener("abort", cancel);
        this.#waiting = undefined;
        resolve(answer);
      };
      this.#waiting = { settle, text: "" };
      this.#connected().write(`${query}\n`);
    });
  }

  #connected(): Socket {
    if (this.#socket && !this.#socket.destroyed && this.#socket.writable) return this.#socket;
    const socket = connect(this.#address);
    this.#socket = socket;
    socket.setEncoding("latin1");
    socket.setNoDelay(true);
    // An idle connection must not keep the editor's host alive.
    socket.unref();
    const isCurrent = () => this.#socket === socket;
    socket.on("data", (chunk) => isCurrent() && this.#received(String(chunk)));
    socket.on("error", (error) => isCurrent() && this.#drop(failureOf(error)));
    socket.on("close", () => isCurrent() && this.#drop({ kind: "hung-up" }));
    return socket;
  }

  #received(chunk: string): void {
    const waiting = this.#waiting;
    // Nobody asked: the rest of it would be taken for the answer to the next question.
    if (!waiting) {
      if (chunk.trim() !== "") this.#hangUp();
      return;
    }
    waiting.text += chunk;
    const end = waiting.text.indexOf("\n");
    if (end < 0) {
      if (waiting.text.length > LONGEST) this.#drop({ kind: "babble" });
      return;
    }
    // More than one line to one question: what follows it is dropped with the connection.
    if (waiting.text.slice(end).trim() !== "") this.#hangUp();
    waiting.settle({ ok: true, text: waiting.text.slice(0, end).replace(/\r$/, "") });
  }

  /** The next question begins a connection of its own. */
  #hangUp(): void {
    const socket = this.#socket;
    this.#socket = undefined;
    socket?.destroy();
  }

  #drop(failure: Failure): void {
    this.#hangUp();
    this.#waiting?.settle(sourceFailed(failure));
  }
}

function failureOf(error: Error): Failure {
  const { code } = error as NodeJS.ErrnoException;
  return code === "ECONNRESET" || code === "EPIPE"
    ? { kind: "hung-up" }
    : { kind: "unreachable", detail: code ?? error.message };
}
