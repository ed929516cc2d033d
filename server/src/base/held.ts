/** A result that is made when it is asked for, and may be let go meanwhile. */
export interface Held<T> {
  get(): T;
  /** Undefined where it is not at hand. */
  now(): T | undefined;
}

/**
 * For large results that can be made again: of all that are made by the function that comes back, those asked for last are
 * held, as many as weigh no more than `most` together, and the very last in any case.
 */
export function heldWhileLight<T>(most: number, weigh: (value: T) => number): (make: () => T) => Held<T> {
  /** Those asked for last are last. */
  const held = new Map<object, { readonly value: T; readonly weight: number }>();
  let all = 0;
  let last: { readonly key: object; readonly value: T } | undefined;
  return (make) => {
    const key = {};
    return {
      now: () => held.get(key)?.value,
      get() {
        // Asked again and again in a row, it costs nothing.
        if (last?.key === key) return last.value;
        let known = held.get(key);
        if (known) held.delete(key);
        else {
          const value = make();
          known = { value, weight: weigh(value) };
          all += known.weight;
        }
        held.set(key, known);
        last = { key, value: known.value };
        for (const [other, { weight }] of held) {
          if (all <= most || other === key) break;
          held.delete(other);
          all -= weight;
        }
        return known.value;
      },
    };
  };
}
