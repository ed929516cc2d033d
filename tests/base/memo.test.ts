import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { describe, expect, test } from "vitest";
import { comesBack, memo, memoBy, memoEach } from "../../server/src/base/memo";

interface Key {
  readonly name: string;
}
const key = (name = "key"): Key => ({ name });

/** Counts how often a result was made. */
function counted<T extends unknown[]>() {
  const calls: T[] = [];
  return { calls, made: (...args: T): number => calls.push(args) };
}

describe("memo", () => {
  test("makes the result of a key once", () => {
    const { calls, made } = counted<[Key]>();
    const of = memo((k: Key) => ({ number: made(k) }));
    const a = key();
    const first = of(a);
    expect(of(a)).toBe(first);
    expect(calls).toEqual([[a]]);
  });

  test("tells keys apart by what they are, not by what they hold", () => {
    const { made } = counted<[Key]>();
    const of = memo((k: Key) => made(k));
    expect([of(key()), of(key())]).toEqual([1, 2]);
  });

  test("makes it again for another context, and keeps the last one only", () => {
    const { calls, made } = counted<[Key, object]>();
    const of = memo((k: Key, ctx: object) => made(k, ctx));
    const k = key();
    const one = {};
    const other = {};
    expect([of(k, one), of(k, one), of(k, other), of(k, other), of(k, one)]).toEqual([1, 1, 2, 2, 3]);
    expect(calls).toEqual([
      [k, one],
      [k, other],
      [k, one],
    ]);
  });

  test("compares each of two arguments", () => {
    const { made } = counted<[Key, string, string]>();
    const of = memo((k: Key, a: string, b: string) => made(k, a, b));
    const k = key();
    expect([of(k, "a", "b"), of(k, "a", "b"), of(k, "b", "b"), of(k, "b", "a"), of(k, "b", "a")]).toEqual([
      1, 1, 2, 3, 3,
    ]);
  });

  test("compares as Object.is does", () => {
    const { made } = counted<[Key, number | undefined]>();
    const of = memo((k: Key, a: number | undefined) => made(k, a));
    const k = key();
    expect([of(k, Number.NaN), of(k, Number.NaN), of(k, 0), of(k, -0), of(k, undefined)]).toEqual([
      1, 1, 2, 3, 4,
    ]);
  });

  test("keeps a result of undefined too", () => {
    const { calls, made } = counted<[Key]>();
    const of = memo((k: Key): string | undefined => {
      made(k);
      return undefined;
    });
    const k = key();
    expect([of(k), of(k)]).toEqual([undefined, undefined]);
    expect(calls.length).toBe(1);
  });

  test("leaves out what map hands over besides the element", () => {
    const { calls, made } = counted<[Key]>();
    const of = memo((k: Key) => made(k));
    const one = key();
    expect([one, one].map(of)).toEqual([1, 1]);
    expect([one].map(of)).toEqual([1]);
    expect(calls.length).toBe(1);
  });

  test("leaves an argument with a default to its default", () => {
    const { calls, made } = counted<[Key, string]>();
    const of = memo((k: Key, a = "usual") => made(k, a));
    const k = key();
    expect([k, k].map(of)).toEqual([1, 1]);
    expect(calls).toEqual([[k, "usual"]]);
  });

  test("may be asked for another key, and for its own, while it makes a result", () => {
    const { calls, made } = counted<[string]>();
    interface Tree extends Key {
      readonly under: readonly Tree[];
    }
    const sizeOf: (tree: Tree) => number = memo((tree: Tree) => {
      made(tree.name);
      return tree.under.reduce((sum, each) => sum + sizeOf(each), 1);
    });
    const leaf: Tree = { name: "leaf", under: [] };
    const root: Tree = { name: "root", under: [leaf, leaf] };
    expect([sizeOf(root), sizeOf(leaf), sizeOf(root)]).toEqual([3, 1, 3]);
    expect(calls).toEqual([["root"], ["leaf"]]);

    const countdown: (k: Key, from: number) => string = memo((k: Key, from: number) =>
      from === 0 ? "0" : `${from} ${countdown(k, from - 1)}`,
    );
    const k = key();
    expect(countdown(k, 3)).toBe("3 2 1 0");
    expect(countdown(k, 2)).toBe("2 1 0");
  });

  test("keeps nothing of what throws, and what it kept before stays", () => {
    const { made } = counted<[Key, boolean]>();
    const of = memo((k: Key, fails: boolean) => {
      const number = made(k, fails);
      if (fails) throw new Error(`call ${number}`);
      return number;
    });
    const k = key();
    expect(of(k, false)).toBe(1);
    expect(() => of(k, true)).toThrow("call 2");
    expect(() => of(k, true)).toThrow("call 3");
    expect(of(k, false)).toBe(1);
  });

  test("each has results of its own", () => {
    const k = key();
    const one = memo(({ name }: Key) => `one ${name}`);
    const other = memo(({ name }: Key) => `other ${name}`);
    expect([one(k), other(k), one(k)]).toEqual(["one key", "other key", "one key"]);
  });
});

describe("memoBy", () => {
  test("compares what it is told to, whatever the result is made from", () => {
    const { made } = counted<[string]>();
    const last = memoBy<Key, number>();
    const k = key();
    const of = (words: string, a?: unknown, b?: unknown) => last(k, () => made(words), a, b);
    expect([of("x", 1, "b"), of("y", 1, "b"), of("y", 2, "b"), of("y", 2, "c"), of("y", 2)]).toEqual([
      1, 1, 2, 3, 4,
    ]);
    expect(last(key(), () => made("z"), 2)).toBe(5);
  });

  test("keeps nothing of what throws", () => {
    const last = memoBy<Key, string>();
    const k = key();
    const broken = (): string => {
      throw new Error("broken");
    };
    expect(() => last(k, broken)).toThrow("broken");
    expect(last(k, () => "made")).toBe("made");
    expect(last(k, broken)).toBe("made");
  });
});

describe("memoEach", () => {
  test("keeps a result for each name under a key", () => {
    const { calls, made } = counted<[Key, string | undefined]>();
    const of = memoEach((k: Key, name: string | undefined) => made(k, name));
    const one = key();
    const other = key();
    expect([of(one, "a"), of(one, "b"), of(one, "a"), of(one, "b")]).toEqual([1, 2, 1, 2]);
    expect([of(other, "a"), of(one, ""), of(one, undefined), of(one, undefined)]).toEqual([3, 4, 5, 5]);
    expect(calls.length).toBe(5);
  });

  test("keeps a result of undefined too, and nothing of what throws", () => {
    const { calls, made } = counted<[string]>();
    const of = memoEach((_k: Key, name: string) => {
      if (made(name) < 2) throw new Error("the first time");
      return undefined;
    });
    const k = key();
    expect(() => of(k, "a")).toThrow("the first time");
    expect([of(k, "a"), of(k, "a")]).toEqual([undefined, undefined]);
    expect(calls.length).toBe(2);
  });
});

describe("what is kept goes with its key", () => {
  // Only a collection that is asked for says when it has been.
  setFlagsFromString("--expose-gc");
  const collect = runInNewContext("gc") as () => void;
  const gone = async (one: WeakRef<object>): Promise<boolean> => {
    for (let tries = 0; tries < 20 && one.deref() !== undefined; tries++) {
      await new Promise((resolve) => setTimeout(resolve, 0));
      collect();
    }
    return one.deref() === undefined;
  };
  const large = memo((k: Key, _ctx: object) => ({ of: k }));
  const named = memoEach((k: Key, name: string) => ({ of: k, name }));

  test("with a key that nobody holds", async () => {
    const kept = key("kept");
    const [ofKept, ofGone, namedGone] = ((): [WeakRef<object>, WeakRef<object>, WeakRef<object>] => {
      const other = key("gone");
      return [
        new WeakRef(large(kept, collect)),
        new WeakRef(large(other, collect)),
        new WeakRef(named(other, "a")),
      ];
    })();
    expect(await gone(ofGone)).toBe(true);
    expect(await gone(namedGone)).toBe(true);
    expect(ofKept.deref()).toBe(large(kept, collect));
  });

  test("with the context that may come back, once nobody holds it", async () => {
    const k = key();
    const [ctx, result] = ((): [WeakRef<object>, WeakRef<object>] => {
      const before = { context: 1 };
      comesBack(before);
      const made = large(k, before);
      large(k, collect);
      large(k, {});
      expect(large(k, before)).toBe(made);
      return [new WeakRef(before), new WeakRef(made)];
    })();
    large(k, collect);
    expect(await gone(ctx)).toBe(true);
    expect(await gone(result)).toBe(true);
    expect(k.name).toBe("key");
  });

  test("no copy and no comparison sees it", () => {
    const { calls, made } = counted<[Key]>();
    const of = memo((k: Key) => made(k));
    const one = key();
    of(one);
    expect(one).toStrictEqual(key());
    expect(Reflect.ownKeys(one)).toEqual(["name"]);
    expect([of({ ...one }), of(structuredClone(one)), of(one)]).toEqual([2, 3, 1]);
    expect(calls.length).toBe(3);
  });

  test("with the context that another one followed", async () => {
    const k = key();
    const [ctx, result] = ((): [WeakRef<object>, WeakRef<object>] => {
      const before = { context: 1 };
      return [new WeakRef(before), new WeakRef(large(k, before))];
    })();
    large(k, collect);
    expect(await gone(ctx)).toBe(true);
    expect(await gone(result)).toBe(true);
    expect(k.name).toBe("key");
  });
});
