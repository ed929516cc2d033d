/** A number that could be computed, or a sentence fragment saying which input stood in the way. */
export type Computed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly message: string };

export const computed = <T>(value: T): Computed<T> => ({ ok: true, value });
export const refused = (message: string): { readonly ok: false; readonly message: string } => ({
  ok: false,
  message,
});

/** Sentence fragment where a probability is not strictly between 0 and 1, else undefined. */
export const notAFraction = (name: string, value: number): string | undefined =>
  value > 0 && value < 1 ? undefined : `${name} must lie between 0 and 1, not ${value}`;
