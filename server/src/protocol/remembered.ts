import type { CancellationToken } from "vscode-languageserver";
import { stopIfCancelled } from "./answer";
import type { Session } from "./session";

/** Milliseconds that are waited for the logs to be read; after that what is known so far has to do. */
const PATIENCE = 4000;

/**
 * Resolves when what is asked about all jobs of the workspace can be answered.
 * @throws ResponseError where the request was cancelled by then
 */
export async function remembered(session: Session, token: CancellationToken): Promise<void> {
  await read(session);
  stopIfCancelled(token);
}

async function read({ ready, settled, remembering, service }: Session): Promise<void> {
  await ready;
  await settled;
  // Read through once, it is never far behind.
  if (service.memory().version > 0) return;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const enough = new Promise<void>((resolve) => {
    timer = setTimeout(resolve, PATIENCE);
  });
  await Promise.race([remembering.done(), enough]);
  clearTimeout(timer);
}
