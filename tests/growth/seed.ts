/** Printed with each run, so that it can be taken again: `MENDLOG_SEED=7 npx vitest run tests/growth`, or `random`. */
export const SEED = ((given) => (given === "random" ? Math.floor(Math.random() * 1e9) : Number(given ?? 1)))(
  process.env.MENDLOG_SEED,
);

/** Numbers from 0 to 1 that are the same for the same seed (mulberry32, from memory). */
export function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** So many of them at most, by the seed. */
export function chosen<T>(all: readonly T[], most: number, seed = SEED): T[] {
  const next = numbers(seed);
  return all
    .map((one) => ({ one, at: next() }))
    .sort((a, b) => a.at - b.at)
    .slice(0, most)
    .map(({ one }) => one);
}
