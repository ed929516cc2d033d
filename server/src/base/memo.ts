// Results kept with the object they were worked out from, and gone with it: the one way in which what was worked out
// for a block, a table or a board is not worked out again.
//
// All of them hold their keys weakly, keep a result of `undefined` like any other, and keep nothing where making it
// throws. Two values are the same where `Object.is` says so.
//
// A result hangs on its key itself, in a private field that nobody else sees: no copy takes it over, and no comparison looks
// at it. In a weak map a result that leads back to its key would stay until all memory is cleared, and with it the log it is of:
// the engine takes what such a map holds for held when it clears only what is young.

/**
 * The function with one result kept for each key: the last one, given again for as long as the other arguments are the
 * same. A judge of blocks judges a block once for a context, and again when the context is another.
 *
 * As many arguments count as `make` declares: what `map` hands over besides the element is left out, as a function of
 * one argument would. One with a default is not declared, neither for the types nor here.
 */
export function memo<K extends object, R>(make: (key: K) => R): (key: K) => R;
export function memo<K extends object, A, R>(make: (key: K, a: A) => R): (key: K, a: A) => R;
export function memo<K extends object, A, B, R>(make: (key: K, a: A, b: B) => R): (key: K, a: A, b: B) => R;
export function memo<K extends object, R>(
  make: (key: K, a?: unknown, b?: unknown) => R,
): (key: K, a?: unknown, b?: unknown) => R {
  const last = memoBy<K, R>();
  // Asked for each block at each keystroke: with a rest parameter an answer that is known would cost ten times as much.
  if (make.length < 2) return (key) => last(key, make);
  if (make.length === 2) return (key, a) => last(key, make, a);
  return (key, a, b) => last(key, make, a, b);
}

/** Arguments by which results are kept for as long as they live: see `comesBack`. */
const returning = new WeakSet<object>();

/**
 * Of an argument that may be the one again after it was another: a result made with it is kept beside the last one, until
 * nothing holds the argument any more. Who marks one says with that how long it is held.
 */
export function comesBack(argument: object): void {
  returning.add(argument);
}

interface Kept {
  a: unknown;
  b: unknown;
  value: unknown;
  /** By the first argument: those before it that may come back. */
  others?: WeakMap<object, Kept> | undefined;
}

/**
 * As `memo`, where a result is made from other things than those it depends on: from a view of which only the context
 * counts, or from headings of which only the words do. Each call says what is compared, and how the result is made.
 */
export function memoBy<K extends object, R>(): (
  key: K,
  make: (key: K, a?: unknown, b?: unknown) => R,
  a?: unknown,
  b?: unknown,
) => R {
  const owner = {};
  return (key, make, a, b) => {
    const known = Results.find(key, owner);
    if (known !== undefined && Object.is(known.a, a) && Object.is(known.b, b)) return known.value as R;
    const others = known && withOthers(known);
    const before = isObject(a) ? others?.get(a) : undefined;
    const value = before && Object.is(before.b, b) ? (before.value as R) : make(key, a, b);
    Results.put(key, owner, { a, b, value, others });
    return value;
  };
}

/** What is to be kept beside the next result, the present one among it where it may come back. */
function withOthers({ a, b, value, others }: Kept): Kept["others"] {
  if (!isObject(a) || !returning.has(a)) return others;
  return (others ?? new WeakMap<object, Kept>()).set(a, { a, b, value });
}

const isObject = (value: unknown): value is object => typeof value === "object" && value !== null;

/** One result of a key, and those of other functions behind it: few keys have more than a dozen. */
interface Result extends Kept {
  /** Stands for the function that it is of. */
  readonly owner: object;
  readonly next: Result | undefined;
}

/** What is constructed is the very object that is given, so that a class that extends it puts its private fields there. */
function Given(key: object): object {
  return key;
}

/** The results of any object, in it. */
class Results extends (Given as unknown as new (key: object) => object) {
  #first: Result | undefined;

  static find(key: object, owner: object): Result | undefined {
    if (!(#first in key)) return undefined;
    let result = key.#first;
    while (result !== undefined && result.owner !== owner) result = result.next;
    return result;
  }

  static put(key: object, owner: object, { a, b, value, others }: Kept): void {
    // Looked for again: what was made may have been asked for while it was made.
    const known = Results.find(key, owner);
    if (known) {
      known.a = a;
      known.b = b;
      known.value = value;
      known.others = others;
      return;
    }
    const results = #first in key ? key : (new Results(key) as Results);
    results.#first = { owner, a, b, value, others, next: results.#first };
  }
}

/** The function with a result kept for each name under a key, all of them for as long as the key lives. */
export function memoEach<K extends object, N extends string | undefined, R>(
  make: (key: K, name: N) => R,
): (key: K, name: N) => R {
  const namesOf = memo((_key: K) => new Map<N, { readonly value: R }>());
  return (key, name) => {
    const names = namesOf(key);
    let known = names.get(name);
    if (known === undefined) {
      known = { value: make(key, name) };
      names.set(name, known);
    }
    return known.value;
  };
}

/** Longer texts are not kept: a piece of this length may be cut out of a large text, and would hold all of it. */
const LONGEST_KEPT = 12;
/** Results kept at least, and half as many as are kept at most. */
const TEXTS_KEPT = 4096;

/**
 * The function with its last results kept by text, several thousand of them: for what is asked of each cell of each table,
 * where the same few words stand again and again. Results are shared, so nobody may change one. Long texts are worked out
 * again each time.
 */
export function memoText<R>(make: (text: string) => R): (text: string) => R {
  let young = new Map<string, { readonly value: R }>();
  let old = young;
  return (text) => {
    if (text.length > LONGEST_KEPT) return make(text);
    let known = young.get(text);
    if (known === undefined) {
      known = old.get(text) ?? { value: make(text) };
      if (young.size >= TEXTS_KEPT) {
        old = young;
        young = new Map();
      }
      young.set(text, known);
    }
    return known.value;
  };
}

/**
 * As `memoText` for objects made from long texts: one is given again for as long as something else holds it, and forgotten
 * with it. Nobody may change one.
 */
export function memoHeld<R extends object>(make: (text: string) => R): (text: string) => R {
  const held = new Map<string, WeakRef<R>>();
  const gone = new FinalizationRegistry((text: string) => {
    if (held.get(text)?.deref() === undefined) held.delete(text);
  });
  return (text) => {
    const known = held.get(text)?.deref();
    if (known !== undefined) return known;
    // In memory of its own: a slice would hold all of the text that it was cut from.
    const own = [text.slice(0, 1), text.slice(1)].join("");
    const made = make(own);
    held.set(own, new WeakRef(made));
    gone.register(made, own);
    return made;
  };
}
