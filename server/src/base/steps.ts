// Long computations in steps: whoever runs them may let others in between two steps, or stop asking for more. This is the
// only way to yield; `turns.ts` has the one runner, `cancellation.ts` the one way to stop it.

/**
 * Yields at least every few milliseconds; what was worked out is the value returned. It may be left at any step, so
 * nothing is kept but what was worked out to its end.
 * @template P what a step tells of how far it has come
 */
export type Steps<R, P = void> = Generator<P, R, void>;

/** What a step may give to whoever runs it in turns: to go on when this has come. Run at once it is never given. */
export type Waiting = Promise<void> | undefined | void;

/**
 * Steps of work that has to wait for files. It gives one thing after another, and in between, where it has none yet,
 * undefined or how far it has come.
 */
export type AsyncSteps<T, P = undefined> = AsyncGenerator<T | P, void, void>;

/** The result of all steps, taken at once. */
export function finish<R>(steps: Steps<R, unknown>): R {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}
