/** Tells whether an answer is still waited for. The protocol's tokens are such ones. */
export interface CancellationToken {
  readonly isCancellationRequested: boolean;
}

/** For those who wait for the answer whatever comes. */
export const NEVER_CANCELLED: CancellationToken = { isCancellationRequested: false };

/** A token that is read again each time it is looked at. */
export const cancelledWhen = (over: () => boolean): CancellationToken => ({
  get isCancellationRequested() {
    return over();
  },
});

/** Cancelled as soon as one of them is. */
export const anyOf = (...tokens: readonly CancellationToken[]): CancellationToken =>
  cancelledWhen(() => tokens.some((token) => token.isCancellationRequested));

/** Thrown where work stops because nobody waits for it any longer; no fault of anybody's. */
export class Cancelled extends Error {
  constructor() {
    super("The work was cancelled.");
  }
}

/** @throws Cancelled where nobody waits any longer */
export function stopIfCancelled(token: CancellationToken): void {
  if (token.isCancellationRequested) throw new Cancelled();
}

/** True where the work came to its end, false where it was cancelled. */
export async function completes(work: Promise<unknown>): Promise<boolean> {
  try {
    await work;
    return true;
  } catch (error) {
    if (error instanceof Cancelled) return false;
    throw error;
  }
}
