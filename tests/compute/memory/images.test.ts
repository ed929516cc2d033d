import { describe, expect, test } from "vitest";
import { identifySet } from "../../../server/src/compute/memory/identify-set";
import { checksOf, copiesOf, fillOf } from "../../../server/src/compute/memory/image";
import { matchImage } from "../../../server/src/compute/memory/match-image";
import { matchChecks } from "../../../server/src/compute/memory/rom-match";
import type { RomSet } from "../../../server/src/knowledge/types";
import { inWords } from "../../../server/src/text/saying";
import { everything } from "../../support/words";

/** Bytes of a linear congruential generator: different seeds, different sums. */
function made(size: number, seed: number): Uint8Array {
  let state = seed;
  return Uint8Array.from({ length: size }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state >>> 24;
  });
}
const joined = (...parts: Uint8Array[]): Uint8Array => Uint8Array.from(parts.flatMap((part) => [...part]));
const known = (ref: string, bytes: Uint8Array) => {
  const { size, sum16, crc32, sha1 } = checksOf(bytes);
  return { ref, size, sum16, crc32, sha1 };
};

const [a2, a3, b2] = [made(2048, 5), made(2048, 17), made(2048, 99)];
const SETS: readonly RomSet[] = [
  { id: "first", title: "First release", revision: "A", images: [known("U2", a2), known("U3", a3)] },
  { id: "second", title: "Second release", revision: "B", images: [known("U2", b2), known("U3", a3)] },
];

describe("an image on its own", () => {
  test("is told by what it is filled with where all bytes are alike", () => {
    expect(fillOf(new Uint8Array(4).fill(0xff))).toBe(0xff);
    expect(fillOf(Uint8Array.of(1, 1, 2))).toBeUndefined();
    expect(fillOf(new Uint8Array())).toBeUndefined();
  });

  test("how many times over it holds the same", () => {
    expect(copiesOf(a2)).toBe(1);
    expect(copiesOf(joined(a2, a2))).toBe(2);
    expect(copiesOf(joined(a2, a2, a2, a2))).toBe(4);
    expect(copiesOf(joined(a2, a2, a2))).toBe(1);
    expect(copiesOf(new Uint8Array(64))).toBe(1);
    expect(copiesOf(new Uint8Array())).toBe(1);
  });
});

describe("an image against the sets", () => {
  test("the very image, and the sets that share it", () => {
    const report = matchImage(b2, SETS, "U2");
    expect(report.matches[0]).toMatchObject({ kind: "exact", part: "whole", set: { id: "second" } });
    expect(everything(report).trim()).toBe(
      "The image is U2 of second (Second release, revision B), by 16-bit sum, CRC-32 and SHA-1.",
    );
    expect(everything(matchImage(a3, SETS, "U3"))).toContain(
      "second (Second release, revision B) holds the same.",
    );
  });

  test("read at another position", () => {
    expect(everything(matchImage(a2, SETS, "U3"))).toContain("It was read at U3: the chips are swapped");
  });

  test("doubled, quartered, halved and half blank", () => {
    const cases = [
      [joined(a2, a2), "one-copy", "2 times: 4096 bytes were read, and it has 2048"],
      [joined(a2, a2, a2, a2), "one-copy", "4 times: 8192 bytes were read"],
      [
        joined(a2, new Uint8Array(2048).fill(0xff)),
        "lower-half",
        "The lower half of the image is U2 of first",
      ],
      [joined(new Uint8Array(2048), a2), "upper-half", "The upper half of the image is U2 of first"],
    ] as const;
    for (const [bytes, part, text] of cases) {
      const report = matchImage(bytes, SETS, "U2");
      expect(report.matches[0]).toMatchObject({ kind: "exact", part, image: { ref: "U2" } });
      expect(everything(report)).toContain(text);
    }
    const doubled: RomSet = { id: "big", title: "big", images: [known("U2", joined(a2, a2))] };
    expect(everything(matchImage(a2, [doubled], "U2")).trim()).toBe(
      "The image is one of two equal halves of U2 of big: 2048 bytes, and the set has 4096.",
    );
  });

  test("bytes swapped: the same sum, another hash", () => {
    const swapped = a2.slice();
    [swapped[0], swapped[1]] = [a2[1]!, a2[0]!];
    expect(a2[0]).not.toBe(a2[1]);
    const { matches, says } = matchImage(swapped, SETS, "U2");
    const sentence = [inWords(says), says.more].join(" ");
    expect(matches[0]).toMatchObject({ kind: "same-sum", differ: ["crc32", "sha1"] });
    expect(sentence).toContain(
      "has the 16-bit sum of U2 of first (First release, revision A), but its CRC-32 and SHA-1 differ.",
    );
  });

  test("blank, empty and all alike", () => {
    expect(everything(matchImage(new Uint8Array(2048).fill(0xff), SETS))).toContain(
      "All 2048 bytes are FF. An erased",
    );
    expect(everything(matchImage(new Uint8Array(2048), SETS))).toContain(
      "All 2048 bytes are 00. A stuck bus",
    );
    expect(everything(matchImage(new Uint8Array(), SETS)).trim()).toBe(
      "The image is empty: 0 bytes. Read it again.",
    );
  });

  test("a set may hold a blank image", () => {
    const blank = new Uint8Array(64).fill(0xff);
    const set: RomSet = { id: "s", title: "s", images: [known("U9", blank)] };
    expect(everything(matchImage(blank, [set]))).toContain("The image is U9 of s");
  });

  test("unknown: the nearest by position and size, and its revision", () => {
    const { matches, nearest, says } = matchImage(made(4096, 3), SETS, "U3");
    const sentence = [inWords(says), says.more].join(" ");
    expect(matches).toEqual([]);
    expect(nearest).toMatchObject({ set: { id: "first" }, image: { ref: "U3" } });
    expect(sentence).toContain("Nearest is U3 of first (First release, revision A), which has 2048 bytes.");
  });
});

describe("checks as typed", () => {
  test("a sum alone is said to be a sum alone", () => {
    expect(matchChecks({ sum16: checksOf(a2).sum16.toUpperCase() }, SETS).map(({ kind }) => kind)).toEqual([
      "sum-only",
    ]);
  });

  test("one hash agrees and another does not: a slip of the key", () => {
    const checks = { ...checksOf(a2), crc32: "00000000" };
    expect(matchChecks(checks, SETS)[0]).toMatchObject({ kind: "hash-conflict", differ: ["crc32"] });
  });

  test("a set with nothing to compare matches nothing", () => {
    expect(matchChecks(checksOf(a2), [{ id: "bare", title: "bare", images: [{ ref: "U2" }] }])).toEqual([]);
    expect(matchChecks({ size: 2048 }, SETS)).toEqual([]);
  });
});

describe("all positions together", () => {
  const read = (u2: Uint8Array, u3?: Uint8Array) =>
    new Map([["U2", checksOf(u2)], ...(u3 ? ([["U3", checksOf(u3)]] as const) : [])]);

  test.each([
    [
      "one set",
      read(b2, a3),
      "identified",
      "All positions compared belong to second (Second release, revision B).",
    ],
    ["some not read", read(b2), "identified", "Not compared: U3."],
    ["a stranger", read(a2, made(2048, 1)), "mixed", "The rest fits first (First release, revision A) best."],
    ["nothing known", read(made(2048, 1)), "unknown", "Keep the images"],
    ["nothing read", new Map(), "nothing-read", "No memory was read."],
  ])("%s", (_, positions, outcome, text) => {
    const report = identifySet(positions, SETS);
    expect(report.outcome).toBe(outcome);
    expect(everything(report)).toContain(text);
  });

  test("a position both sets share decides nothing", () => {
    expect(identifySet(new Map([["U3", checksOf(a3)]]), SETS)).toMatchObject({ outcome: "ambiguous" });
  });

  test("a set nothing speaks against comes before one of which a position differs", () => {
    const short: RomSet = { id: "short", title: "short", images: [known("U2", b2)] };
    const report = identifySet(read(b2, a3), [SETS[0]!, short]);
    expect(report).toMatchObject({ outcome: "identified", fits: [{ set: { id: "short" } }, {}] });
    expect(everything(report)).toContain("Not in the set: U3.");
  });

  test("a mix names what stands where", () => {
    const third: RomSet = {
      id: "third",
      title: "third",
      images: [known("U2", made(2048, 7)), known("U3", made(2048, 8))],
    };
    const report = identifySet(read(made(2048, 7), a3), [...SETS, third]);
    expect(report.outcome).toBe("mixed");
    expect(everything(report)).toContain("U2 holds U2 of third");
  });
});
