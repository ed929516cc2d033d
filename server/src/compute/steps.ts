// Long computations in steps: whoever runs them may let others in between two steps, or stop asking for more.

/** Yields at least every few milliseconds; what was worked out is the value returned. */
export type Steps<R> = Generator<void, R, void>;

/** All steps at once. */
export function finish<R>(steps: Steps<R>): R {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}
