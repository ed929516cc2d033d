/** Numbers in [0, 1) from a seed, the same everywhere: a linear congruential step, then its bits mixed. */
export function random(seed: number): () => number {
  let state = (seed * 2654435761) >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 0x2c1b3c6d);
    mixed = Math.imul(mixed ^ (mixed >>> 12), 0x297a2d39);
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32;
  };
}
