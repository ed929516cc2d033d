import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { failingBits, type MemoryChip } from "../../../server/src/compute/memory/failing-bits";
import { words } from "../../support/words";
import { accepted, reasonOf } from "../matrix/support";

// Two banks of 2114s, four bits each, side by side.
const CHIPS: readonly MemoryChip[] = [
  { ref: "U7", width: 4, lines: [0, 1, 2, 3], range: { from: 0, to: 0x3ff } },
  { ref: "U8", width: 4, lines: [4, 5, 6, 7], range: { from: 0, to: 0x3ff } },
  { ref: "U9", width: 4, lines: [0, 1, 2, 3], range: { from: 0x400, to: 0x7ff } },
  { ref: "U10", width: 4, lines: [4, 5, 6, 7], range: { from: 0x400, to: 0x7ff } },
];
const word = (address: number, wrote: number, read: number) => ({ address, wrote, read });

describe("from words to chips", () => {
  test("one stuck bit names its chip, in the bank the address lies in", () => {
    const { bits, chips, shared, agreeing } = accepted(
      failingBits(CHIPS, [word(0x412, 0x55, 0x75), word(0x413, 0xaa, 0xaa), word(0x700, 0x00, 0x20)]),
    );
    expect(bits).toEqual([{ line: 5, failures: 2, reads: "high" }]);
    expect(chips.map(({ ref, lines, failures }) => [ref, lines, failures])).toEqual([["U10", [5], 2]]);
    expect(words(chips[0])).toBe(
      "U10 fails on D5: 55 written at 0412, 75 read, and 1 more like it. Reseat it, check its data lines, then replace it.",
    );
    expect([shared, agreeing]).toEqual([[], 1]);
  });

  test("bits that come back low, high, or both", () => {
    const { bits } = accepted(failingBits(CHIPS, [word(0, 0xff, 0xfc), word(1, 0x02, 0x01)]));
    expect(bits).toEqual([
      { line: 0, failures: 2, reads: "either" },
      { line: 1, failures: 2, reads: "low" },
    ]);
  });

  test("all chips of a bank at once point at what they share", () => {
    const { shared, chips } = accepted(failingBits(CHIPS, [word(0x10, 0x55, 0xff)]));
    expect(chips.map(({ ref }) => ref)).toEqual(["U7", "U8"]);
    expect(shared[0]).toMatch(/^All chips of the bank fail \(U7, U8\)\. Check what they share first/);
  });

  test("a lone byte-wide chip with all bits wrong is told to look at its pins", () => {
    const chip: MemoryChip = { ref: "U5", width: 8, lines: [0, 1, 2, 3, 4, 5, 6, 7] };
    const { shared, chips } = accepted(failingBits([chip], [word(0, 0, 0xff)]));
    expect(shared).toEqual([]);
    expect(words(chips[0])).toContain("All its bits fail");
  });

  test("a line no chip serves is said so", () => {
    expect(accepted(failingBits(CHIPS, [word(0x900, 0, 1), word(0, 0, 0x100)])).unserved).toEqual([0, 8]);
  });

  test("single-bit chips: as many chips as wrong bits, whatever the data", () => {
    const row = Array.from(
      { length: 8 },
      (_, line): MemoryChip => ({ ref: `U${line}`, width: 1, lines: [line] }),
    );
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 255 }), fc.integer({ min: 0, max: 255 }), (wrote, read) => {
        const { chips, bits } = accepted(failingBits(row, [word(0, wrote, read)]));
        const text = (wrote ^ read).toString(2).padStart(8, "0");
        const wrong = [...text].reverse().flatMap((bit, line) => (bit === "1" ? [line] : []));
        expect(bits.map(({ line }) => line)).toEqual(wrong);
        expect(chips.map(({ ref }) => ref)).toEqual(wrong.map((line) => `U${line}`));
      }),
    );
  });
});

test.each([
  ["a width", { ref: "U1", width: 2 as never, lines: [0, 1] }, "U1 is 2 bits wide; a chip has 1, 4 or 8."],
  ["lines", { ref: "U1", width: 4, lines: [0, 1] } as const, "U1 is 4 bits wide, but 2 data lines are given"],
  ["a line", { ref: "U1", width: 1, lines: [16] } as const, "data line 16; they run from 0 to 15"],
  ["a line twice", { ref: "U1", width: 4, lines: [0, 0, 1, 2] } as const, "one data line twice"],
  ["a range", { ref: "U1", width: 1, lines: [0], range: { from: 2, to: 1 } } as const, "which is no range"],
])("refuses %s", (_, chip, reason) => {
  expect(reasonOf(failingBits([chip as MemoryChip], []))).toContain(reason);
});

test("refuses words that cannot be", () => {
  expect(reasonOf(failingBits(CHIPS, [word(-1, 0, 0)]))).toBe("-1 is not an address.");
  expect(reasonOf(failingBits(CHIPS, [word(0, 0, 0x10000)]))).toContain("65536 is not a datum");
});
