// The one place that runs long work beside everything else: it lets in what has arrived meanwhile, edits and cancellations,
// and stops where nobody waits for the work any longer.
import { type CancellationToken, NEVER_CANCELLED, stopIfCancelled } from "./cancellation";
import type { AsyncSteps, Steps } from "./steps";

/** Milliseconds of work after which others get a turn. */
const STINT = 8;

/**
 * Lets what has arrived meanwhile be handled first: new edits and cancellations.
 * @throws Cancelled where the token was cancelled by then
 */
export async function nextTurn(token = NEVER_CANCELLED): Promise<void> {
  await new Promise<void>((resolve) => {
    if (typeof setImmediate === "function") setImmediate(resolve);
    else afterMessage(resolve);
  });
  stopIfCancelled(token);
}

/** In a worker of the browser, whose timers wait longer the deeper they are nested. */
function afterMessage(then: () => void): void {
  const { port1, port2 } = new MessageChannel();
  port1.addEventListener(
    "message",
    () => {
      port1.close();
      then();
    },
    { once: true },
  );
  port1.start();
  port2.postMessage(null);
}

/**
 * For loops over many steps: called after each, it gives others a turn every few milliseconds, and says true where it did.
 * @param turn resolves when the others have had theirs; a background pass may wait longer than for one turn
 */
export function turns(
  token: CancellationToken,
  turn: (token: CancellationToken) => Promise<void> = nextTurn,
): () => Promise<boolean> {
  let began = performance.now();
  return async () => {
    if (performance.now() - began < STINT) return false;
    await turn(token);
    began = performance.now();
    return true;
  };
}

/** Milliseconds between two looks whether anybody still waits, where nothing is done here meanwhile. */
const LOOK = 20;

/** @throws Cancelled where nobody waits for it any longer */
async function come(awaited: Promise<void>, token: CancellationToken): Promise<void> {
  let isHere = false;
  const here = awaited.then(() => {
    isHere = true;
  });
  while (!isHere) {
    let timer: ReturnType<typeof setTimeout> | undefined;
    await Promise.race([
      here,
      new Promise((resolve) => {
        timer = setTimeout(resolve, LOOK);
      }),
    ]);
    clearTimeout(timer);
    stopIfCancelled(token);
  }
}

/**
 * Runs steps to their end, giving others their turns, and waits for what a step waits for.
 * @throws Cancelled where nobody waits for it any longer; the steps are left then
 */
export async function inTurns<R>(steps: Steps<R, unknown>, token: CancellationToken): Promise<R> {
  const turn = turns(token);
  try {
    for (;;) {
      const step = steps.next();
      if (step.done) return step.value;
      if (step.value instanceof Promise) await come(step.value, token);
      else await turn();
    }
  } finally {
    // What it waited for is told that nobody does.
    steps.return(undefined as never);
  }
}

/**
 * What the steps give, one after another, others having their turns in between.
 * @throws Cancelled where nobody waits for it any longer
 */
export async function* eachInTurn<T>(
  steps: AsyncSteps<T> | Iterable<T | undefined>,
  token: CancellationToken,
): AsyncGenerator<T, void, void> {
  const turn = turns(token);
  for await (const step of steps) {
    await turn();
    // Files may have been waited for.
    stopIfCancelled(token);
    if (step !== undefined) yield step;
  }
}
