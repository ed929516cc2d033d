// Fields that are worked out when they are asked for, on objects of which there are thousands.
//
// A getter that is written into an object literal is another function for each object. The engine then gives each object a
// description of its own, which is kept until all memory is cleared, and with it whatever the getter holds on to; and code that
// meets many of them cannot be made fast. Here all objects of a kind share their getters.

const LATER = Symbol("later");

type Made = { readonly [LATER]: { readonly [name: string]: () => unknown } };

const getters = new Map<string, PropertyDescriptor>();

function getterOf(name: string): PropertyDescriptor {
  let getter = getters.get(name);
  if (getter === undefined) {
    getter = {
      enumerable: true,
      configurable: true,
      get(this: Made) {
        return this[LATER][name]!();
      },
    };
    getters.set(name, getter);
  }
  return getter;
}

/**
 * The object itself with more fields, each of them its function's result whenever it is read: let that one keep what costs
 * anything (`once`). They are read where the object is spread, compared or written as JSON, as those of a literal are.
 * @param own a new object, which is changed
 */
export function withLater<P extends object, L extends object>(
  own: P,
  later: { readonly [K in keyof L]: () => L[K] },
): P & L {
  Object.defineProperty(own, LATER, { value: later });
  for (const name in later) Object.defineProperty(own, name, getterOf(name));
  return own as P & L;
}
