import { describe, expect, test } from "vitest";
import { defined } from "../../server/src/base/defined";

interface Found {
  readonly at: number;
  readonly ref?: string;
  readonly pins?: readonly number[];
  /** May be undefined itself, and is there all the same. */
  readonly of: string | undefined;
}

describe("leaving out what is absent", () => {
  test("a field that is undefined is not there, one that is empty, zero or null is", () => {
    const found = defined<Found>({ at: 0, ref: undefined, pins: [], of: "" });
    expect(found).toStrictEqual({ at: 0, pins: [], of: "" });
    expect("ref" in found).toBe(false);
    expect(defined<{ readonly at?: null }>({ at: null })).toStrictEqual({ at: null });
  });

  test("fields keep their order, so that what is written out of them does", () => {
    expect(Object.keys(defined<Found>({ of: "a", ref: undefined, at: 1 }))).toEqual(["of", "at"]);
  });

  test("a misspelt, a missing and a wrong field do not compile", () => {
    // @ts-expect-error: no such field
    defined<Found>({ at: 1, of: "a", reff: "U1" });
    // @ts-expect-error: `at` may not be absent
    defined<Found>({ of: "a", at: undefined });
    // @ts-expect-error: a number is wanted
    const found: Found = defined({ at: "1", of: "a" });
    expect(found).toBeDefined();
  });
});
