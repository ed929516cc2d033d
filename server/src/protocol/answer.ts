import {
  type CancellationToken,
  type Connection,
  ErrorCodes,
  LSPErrorCodes,
  ResponseError,
} from "vscode-languageserver";
import { nextTurn } from "./next-turn";

export { nextTurn };

/** Connections over which nothing is to come but the end. */
const ended = new WeakSet<Connection>();

/** After `shutdown`: whatever is still asked is refused, as the protocol has it. */
export function endSession(connection: Connection): void {
  ended.add(connection);
}

/**
 * Makes a handler safe: one that is no longer wanted is not run, or answered at once whatever it waits for, and one that
 * fails is reported in the log and answers `fallback`, so that a mistake of ours never ends the session. A handler that
 * takes long still has to look at the token itself, or it works on for nobody.
 */
export const answering =
  (connection: Connection) =>
  <P, R>(
    name: string,
    fallback: R,
    handler: (params: P, token: CancellationToken) => R | Promise<R>,
  ): ((params: P, token: CancellationToken) => Promise<R>) =>
  async (params, token) => {
    stopIfCancelled(token);
    if (ended.has(connection))
      throw new ResponseError(ErrorCodes.InvalidRequest, "The session has been shut down.");
    try {
      const answer = await unlessCancelled(handler(params, token), token);
      stopIfCancelled(token);
      return answer;
    } catch (error) {
      if (error instanceof ResponseError) throw error;
      report(connection, name, error);
      return fallback;
    }
  };

/** Does not wait any longer for an answer that nobody wants. */
function unlessCancelled<R>(answer: R | Promise<R>, token: CancellationToken): R | Promise<R> {
  if (!(answer instanceof Promise)) return answer;
  return new Promise((resolve, reject) => {
    const listening = token.onCancellationRequested(() => reject(cancelled()));
    answer.then(resolve, reject).finally(() => listening.dispose());
  });
}

/** @throws ResponseError that tells the client that its own cancellation was heeded. */
export function stopIfCancelled(token: CancellationToken): void {
  if (token.isCancellationRequested) throw cancelled();
}

const cancelled = () => new ResponseError(LSPErrorCodes.RequestCancelled, "The request was cancelled.");

export function report(connection: Connection, name: string, error: unknown): void {
  const what = error instanceof Error ? (error.stack ?? error.message) : String(error);
  connection.console.error(`${name} failed: ${what}`);
}

/** Milliseconds of work after which others get a turn. */
const STINT = 8;

/** Runs steps until they end or are no longer wanted, and gives others a turn every few milliseconds. */
export async function inTurns(steps: Iterator<void, unknown>, isOver: () => boolean): Promise<void> {
  let began = performance.now();
  while (!steps.next().done) {
    if (performance.now() - began < STINT) continue;
    await nextTurn();
    if (isOver()) return;
    began = performance.now();
  }
}

/** For loops over many steps: gives others a turn every few milliseconds, and says true where it did. */
export function turns(): () => Promise<boolean> {
  let began = performance.now();
  return async () => {
    if (performance.now() - began < STINT) return false;
    await nextTurn();
    began = performance.now();
    return true;
  };
}
