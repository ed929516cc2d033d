/** A result that is worked out when it is first asked for, and kept. */
export const once = <T>(compute: () => T): (() => T) => {
  let kept: { readonly value: T } | undefined;
  return () => {
    kept ??= { value: compute() };
    return kept.value;
  };
};
