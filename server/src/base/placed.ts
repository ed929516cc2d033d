// What consists of parts, each of which has so many, made one by one as they are asked for.

/** Those that were made, and the way to make more; each is made once. */
export interface InTurn<T> {
  /** @param index from 0, below the sum of all counts */
  at(index: number): T;
  all(): readonly T[];
}

/**
 * @param counts how many each part has
 * @param make the one of a part with a number from 0
 */
export function placedInTurn<T extends object>(
  counts: readonly number[],
  make: (part: number, at: number) => T,
): InTurn<T> {
  const firsts: number[] = [];
  let total = 0;
  for (const count of counts) {
    firsts.push(total);
    total += count;
  }
  const made = new Array<T>(total);
  let isWhole = false;
  const at = (index: number): T => {
    if (made[index] === undefined) {
      let low = 0;
      let high = firsts.length - 1;
      while (low < high) {
        const middle = (low + high + 1) >> 1;
        if (firsts[middle]! <= index) low = middle;
        else high = middle - 1;
      }
      made[index] = make(low, index - firsts[low]!);
    }
    return made[index]!;
  };
  return {
    at,
    all() {
      if (isWhole) return made;
      let index = 0;
      counts.forEach((count, part) => {
        for (let own = 0; own < count; own++, index++)
          if (made[index] === undefined) made[index] = make(part, own);
      });
      isWhole = true;
      return made;
    },
  };
}
