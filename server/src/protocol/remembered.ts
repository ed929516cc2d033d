import { type CancellationToken, stopIfCancelled } from "../base/cancellation";
import type { Session } from "./session";

/** Milliseconds that are waited for the logs to be read; after that what is known so far has to do. */
const PATIENCE = 4000;

/**
 * Resolves when what is asked about all jobs of the workspace can be answered.
 * @throws Cancelled where nobody waits for it by then
 */
export async function whenRemembered(session: Session, token: CancellationToken): Promise<void> {
  await read(session);
  stopIfCancelled(token);
}

/**
 * Resolves when every log was read, however long it takes: for what would be wrong where some were left out.
 * @throws Cancelled where nobody waits for it by then
 */
export async function whenAllRemembered(session: Session, token: CancellationToken): Promise<void> {
  const { ready, folders, remembering, service } = session;
  await ready;
  await folders.settled();
  if (service.memory().version === 0) await remembering.done();
  stopIfCancelled(token);
}

async function read({ ready, folders, remembering, service }: Session): Promise<void> {
  await ready;
  await folders.settled();
  // Read through once, it is never far behind.
  if (service.memory().version > 0) return;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const enough = new Promise<void>((resolve) => {
    timer = setTimeout(resolve, PATIENCE);
  });
  await Promise.race([remembering.done(), enough]);
  clearTimeout(timer);
}
