// Readers that turn checked or trusted data into the shapes of types.ts. They take anything: what is missing
// or of another type comes out as undefined or empty, so that one bad entry costs that entry only.

export type Data = Readonly<Record<string, unknown>>;

/** The entries of a mapping; none for anything else. */
export const record = (value: unknown): Data =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Data) : {};

/** Text of a scalar; numbers too, since the built-in library comes through a plain YAML parser. */
export const text = (value: unknown): string | undefined =>
  typeof value === "string" ? value : typeof value === "number" ? String(value) : undefined;

/** A number as YAML has it; undefined for anything else, a number in quotes too. */
export const number = (value: unknown): number | undefined => (typeof value === "number" ? value : undefined);

/** The items of a list; none for anything else. */
export const array = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

/** The items of a list that are scalars, as text; others are left out. */
export const texts = (value: unknown): string[] => array(value).map(text).filter(present);

/** True for what is there: for `filter`, which then knows that nothing is undefined. */
export const present = <T>(value: T | undefined): value is T => value !== undefined;

/** One shape for each entry of a mapping, in the file's order, entries that cannot be used left out. */
export function shapeMap<T>(
  value: unknown,
  shape: (data: unknown, key: string) => T | undefined,
): Map<string, T> {
  const out = new Map<string, T>();
  for (const [key, entry] of Object.entries(record(value))) {
    const shaped = shape(entry, key);
    if (shaped !== undefined) out.set(key, shaped);
  }
  return out;
}

/** True where every field is there; for shapes that cannot do without one of them. */
export const isComplete = <T extends object>(
  fields: T,
): fields is { [K in keyof T]: Exclude<T[K], undefined> } & T => Object.values(fields).every(present);

export function window(value: unknown): readonly [string, string] | undefined {
  const [low, high] = texts(value);
  return low === undefined || high === undefined ? undefined : [low, high];
}
