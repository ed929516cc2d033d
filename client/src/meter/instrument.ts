// One instrument on the network, asked one question at a time. Free of the editor, so that tests can hold it against a
// simulated instrument.
import { connect, type Socket } from "node:net";
import type { Address } from "./address";

export type Answer =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly failure: Failure };

export type Failure =
  /** Nobody listens there, or the way is barred. */
  | { readonly kind: "unreachable"; readonly detail: string }
  /** No answer in time. */
  | { readonly kind: "silent"; readonly after: number }
  /** The instrument hung up in the middle. */
  | { readonly kind: "hung-up" }
  /** More than any answer holds came without an end. */
  | { readonly kind: "babble" }
  /** The person would not wait. */
  | { readonly kind: "cancelled" };

/** Characters of one answer; a reading has some twenty. */
const LONGEST = 4096;

const failed = (failure: Failure): Answer => ({ ok: false, failure });

interface Waiting {
  readonly settle: (answer: Answer) => void;
  text: string;
}

/**
 * Messages end with a line feed both ways (IEEE 488.2, as carried over a raw socket by custom). The connection is kept
 * for the next question. After anything but an answer it is dropped: an answer that comes too late must never be taken
 * for that to the next question.
 */
export class Instrument {
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
  ask(query: string, timeout: number, signal?: AbortSignal): Promise<Answer> {
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

  #exchange(query: string, timeout: number, signal?: AbortSignal): Promise<Answer> {
    if (signal?.aborted) return Promise.resolve(failed({ kind: "cancelled" }));
    return new Promise((resolve) => {
      const timer = setTimeout(() => this.#drop({ kind: "silent", after: timeout }), timeout);
      const cancel = () => this.#drop({ kind: "cancelled" });
      signal?.addEventListener("abort", cancel, { once: true });
      const settle = (answer: Answer) => {
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
    // Nobody asked: what an instrument says by itself is no answer to anything.
    if (!waiting) return;
    waiting.text += chunk;
    const end = waiting.text.indexOf("\n");
    if (end >= 0) waiting.settle({ ok: true, text: waiting.text.slice(0, end).replace(/\r$/, "") });
    else if (waiting.text.length > LONGEST) this.#drop({ kind: "babble" });
  }

  #drop(failure: Failure): void {
    const socket = this.#socket;
    this.#socket = undefined;
    socket?.destroy();
    this.#waiting?.settle(failed(failure));
  }
}

function failureOf(error: Error): Failure {
  const { code } = error as NodeJS.ErrnoException;
  return code === "ECONNRESET" || code === "EPIPE"
    ? { kind: "hung-up" }
    : { kind: "unreachable", detail: code ?? error.message };
}
