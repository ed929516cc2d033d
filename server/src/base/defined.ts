/** The same with every field that may be absent allowed to be undefined instead. */
type Undefinable<T> = { readonly [K in keyof T]: object extends Pick<T, K> ? T[K] | undefined : T[K] };

/**
 * The object without the fields that are undefined: how an absent field is left out. The type comes from where the
 * object goes, so that a misspelt field does not compile; where nothing says it, name it: `defined<Hover>({ ... })`.
 * A field that an earlier spread brought in is taken out as well: where it is to stay, spread what is there over it.
 * It takes a new object: where no field is undefined, that very object is the result, at no cost.
 */
export function defined<T extends object>(fields: NoInfer<Undefinable<T>>): T {
  let lacks = false;
  for (const name in fields) {
    if ((fields as Record<string, unknown>)[name] === undefined) {
      lacks = true;
      break;
    }
  }
  if (!lacks) return fields as T;
  const kept: Record<string, unknown> = {};
  for (const name in fields) {
    const value = (fields as Record<string, unknown>)[name];
    if (value !== undefined) kept[name] = value;
  }
  return kept as T;
}
