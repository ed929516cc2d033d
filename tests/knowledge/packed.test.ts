import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readKind } from "../../server/build/library.js";
import { packed } from "../../server/build/packed.js";
import { unpacked } from "../../server/src/knowledge/packed";

describe("what is laid out for packing comes back as it was", () => {
  const key = fc.string().filter((name) => name !== "__proto__");
  const { value } = fc.letrec<{ value: unknown }>((tie) => ({
    value: fc.oneof(
      { maxDepth: 4, withCrossShrink: true },
      fc.jsonValue({ maxDepth: 0 }),
      fc.array(tie("value"), { maxLength: 4 }),
      fc.dictionary(key, tie("value"), { maxKeys: 4, noNullPrototype: true }),
    ),
  }));
  const row = fc.dictionary(fc.constantFrom("id", "pins", "1", "0", "note"), value, {
    noNullPrototype: true,
  });

  test("any objects, with the keys of each in their order", () => {
    fc.assert(
      fc.property(fc.array(row), (rows) => {
        // As JSON has them: it knows no negative zero.
        const given = JSON.parse(JSON.stringify(rows));
        expect(unpacked(packed(given))).toEqual(given);
        expect(JSON.stringify(unpacked(packed(given)))).toBe(JSON.stringify(given));
      }),
    );
  });

  test.each(["devices", "families", "makers", "procedures"] as const)("the library's %s", (kind) => {
    const given = readKind(kind).map(({ data }) => data);
    const text = packed(given as object[]);
    expect(unpacked(text)).toEqual(given);
    expect(text.length).toBeLessThan(JSON.stringify(given).length);
  });
});
