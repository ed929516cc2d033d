import {
  type CancellationToken,
  type Connection,
  ErrorCodes,
  LSPErrorCodes,
  ResponseError,
} from "vscode-languageserver";
import { Cancelled, stopIfCancelled } from "../base/cancellation";
import { type PreparedFrom, prepared } from "./prepared";

interface Answering extends PreparedFrom {
  readonly connection: Connection;
  readonly ended: CancellationToken;
}

/**
 * Makes a handler safe: one that is no longer wanted is not run, or answered at once whatever it waits for, and one that
 * fails is reported in the log and answers `fallback`, so that a mistake of ours never ends the session. So does one that
 * stopped because what it was about is no longer there. A handler that takes long still has to look at the token itself, or
 * it works on for nobody. The log that it is about is read before it is run. After `shutdown` whatever is still asked is refused, as the protocol has it.
 */
export const answering =
  ({ connection, ended, service, documents }: Answering) =>
  <P, R>(
    name: string,
    fallback: R,
    handler: (params: P, token: CancellationToken) => R | Promise<R>,
  ): ((params: P, token: CancellationToken) => Promise<R>) =>
  async (params, token) => {
    try {
      stopIfCancelled(token);
      if (ended.isCancellationRequested)
        throw new ResponseError(ErrorCodes.InvalidRequest, "The session has been shut down.");
      const reading = prepared(params, { service, documents }, token);
      if (reading) await unlessCancelled(reading, token);
      const answer = await unlessCancelled(handler(params, token), token);
      stopIfCancelled(token);
      return answer;
    } catch (error) {
      if (error instanceof ResponseError) throw error;
      // The client hears that its own cancellation was heeded.
      if (token.isCancellationRequested && error instanceof Cancelled)
        throw new ResponseError(LSPErrorCodes.RequestCancelled, "The request was cancelled.");
      report(connection, name, error);
      return fallback;
    }
  };

/** Does not wait any longer for an answer that nobody wants. */
function unlessCancelled<R>(answer: R | Promise<R>, token: CancellationToken): R | Promise<R> {
  if (!(answer instanceof Promise)) return answer;
  return new Promise((resolve, reject) => {
    const listening = token.onCancellationRequested(() => reject(new Cancelled()));
    answer.then(resolve, reject).finally(() => listening.dispose());
  });
}

/** Tells the log what failed; that something was stopped is no failure. */
export function report(connection: Connection, name: string, error: unknown): void {
  if (error instanceof Cancelled) return;
  const what = error instanceof Error ? (error.stack ?? error.message) : String(error);
  connection.console.error(`${name} failed: ${what}`);
}
