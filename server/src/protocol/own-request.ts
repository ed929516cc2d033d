import type { CancellationToken } from "vscode-languageserver";
import { answering } from "./answer";
import type { OwnRequest } from "./custom-requests/request";
import type { Session } from "./session";

/** Answers a request of our own; null where the handler has no answer or fails, which the log then tells. */
export function onOwn<P, R>(
  session: Session,
  { method }: OwnRequest<P, R>,
  name: string,
  handle: (params: P, token: CancellationToken) => R | null | Promise<R | null>,
): void {
  const safely = answering(session)<P, R | null>(name, null, handle);
  session.connection.onRequest(
    method,
    (params: P, token: CancellationToken): Promise<unknown> => safely(params, token),
  );
}
