import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Change, keepPlace } from "../../client/src/meter/keep-place";

const LINE = { start: 100, end: 130 };

describe("a place is kept hold of", () => {
  test("when text is put in or taken out above it", () => {
    expect(keepPlace(110, LINE, [{ rangeOffset: 10, rangeLength: 4, text: "" }])).toEqual({
      offset: 106,
      start: 96,
      end: 126,
    });
    expect(keepPlace(110, LINE, [{ rangeOffset: 0, rangeLength: 0, text: "abc" }])?.offset).toBe(113);
  });
  test("when anything happens below it", () => {
    expect(keepPlace(110, LINE, [{ rangeOffset: 131, rangeLength: 9, text: "x" }])?.offset).toBe(110);
  });
  test.each([
    ["at its beginning", { rangeOffset: 100, rangeLength: 0, text: "x" }],
    ["at the place", { rangeOffset: 110, rangeLength: 0, text: "x" }],
    ["at its end", { rangeOffset: 130, rangeLength: 0, text: "x" }],
    ["by what is taken out before it, up to it", { rangeOffset: 90, rangeLength: 10, text: "" }],
  ])("but not when its own row is changed %s", (_where, change) => {
    expect(keepPlace(110, LINE, [change])).toBeUndefined();
  });

  test("whatever is done around the row, it is the same row that is found again", () => {
    const filler = fc.string({ maxLength: 20 }).map((text) => text.replace(/#/g, "x"));
    const edit = fc.record({ at: fc.nat(), length: fc.nat(8), text: filler });
    fc.assert(
      fc.property(filler, filler, fc.option(edit), fc.option(edit), (before, after, above, below) => {
        const row = "#a#";
        const text = `${before}\n${row}\n${after}`;
        const start = before.length + 1;
        const end = start + row.length;
        const changes: Change[] = [];
        if (below && after.length > 0) {
          const rangeOffset = end + 1 + (below.at % after.length);
          const rangeLength = Math.min(below.length, text.length - rangeOffset);
          changes.push({ rangeOffset, rangeLength, text: below.text });
        }
        if (above && before.length > 0) {
          const rangeOffset = above.at % before.length;
          const rangeLength = Math.min(above.length, before.length - rangeOffset);
          changes.push({ rangeOffset, rangeLength, text: above.text });
        }
        let now = text;
        for (const { rangeOffset, rangeLength, text: put } of changes)
          now = now.slice(0, rangeOffset) + put + now.slice(rangeOffset + rangeLength);
        const kept = keepPlace(start + 1, { start, end }, changes);
        expect(kept && now.slice(kept.start, kept.end)).toBe(row);
        expect(kept && now[kept.offset]).toBe("a");
      }),
    );
  });
});
