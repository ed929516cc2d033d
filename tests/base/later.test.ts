import { describe, expect, test } from "vitest";
import { withLater } from "../../server/src/base/later";
import { once } from "../../server/src/base/once";

describe("fields worked out later", () => {
  test("are asked for when they are read, and not before", () => {
    let asked = 0;
    const one = withLater({ name: "a" }, { size: () => ++asked });
    expect(asked).toBe(0);
    expect([one.size, one.size, one.name]).toEqual([1, 2, "a"]);
  });

  test("are those of each object", () => {
    const [a, b] = ["a", "b"].map((name) => withLater({ name }, { twice: () => name + name }));
    expect([a?.twice, b?.twice]).toEqual(["aa", "bb"]);
  });

  test("are fields like others where the object is spread, compared or written", () => {
    const one = withLater({ name: "a" }, { size: () => 1, rows: once(() => ["x"]) });
    expect(Object.keys(one)).toEqual(["name", "size", "rows"]);
    expect(one).toEqual({ name: "a", size: 1, rows: ["x"] });
    expect(JSON.stringify(one)).toBe('{"name":"a","size":1,"rows":["x"]}');
    const copy = { ...one, size: 2 };
    expect(copy).toEqual({ name: "a", size: 2, rows: ["x"] });
    expect(Object.getOwnPropertyDescriptor(copy, "rows")?.get).toBeUndefined();
    expect(structuredClone(one)).toEqual(one);
  });

  test("leave the object itself", () => {
    const own = { name: "a" };
    expect(withLater(own, { size: () => 1 })).toBe(own);
  });
});
