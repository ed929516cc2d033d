import { createHash } from "node:crypto";
import { crc32 as zlibCrc32 } from "node:zlib";
import libraryCrc32 from "crc-32";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { crc32 } from "../../../server/src/compute/memory/crc32";
import { checksOf } from "../../../server/src/compute/memory/image";
import { sha1 } from "../../../server/src/compute/memory/sha1";

const ascii = (text: string): Uint8Array => new TextEncoder().encode(text);
const bytes = fc.uint8Array({ maxLength: 1024 });
/** Lengths around the end of a block, where padding goes wrong. */
const lengths = [0, 1, 54, 55, 56, 57, 63, 64, 65, 118, 119, 120, 127, 128, 129];

// The check input of the published CRC catalogues; sums computed.
test('"123456789": CRC-32 cbf43926, 16-bit sum 01dd, 8-bit sum dd', () => {
  expect(checksOf(ascii("123456789"))).toMatchObject({
    crc32: "cbf43926",
    sum16: "01dd",
    sum8: "dd",
    size: 9,
  });
});

// Blank images: computed, and CRC-32 seen from two libraries.
describe("blank (FF) images", () => {
  test.each([
    ["2K", 2048, "3f55d17f", "f800"],
    ["4K", 4096, "f154670a", "f000"],
    ["8K", 8192, "b4293435", "e000"],
  ])("%s", (_, size, crc, sum) => {
    expect(checksOf(new Uint8Array(size).fill(0xff))).toMatchObject({ crc32: crc, sum16: sum, sum8: "00" });
  });
});

// Examples published with FIPS 180 by NIST, from memory but for the first, which sources agree on.
describe("SHA-1 examples", () => {
  test.each([
    ["abc", "a9993e364706816aba3e25717850c26c9cd0d89d"],
    ["", "da39a3ee5e6b4b0d3255bfef95601890afd80709"],
    ["abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", "84983e441c3bd26ebaae4aa1f95129e5e54670f1"],
  ])("%j", (text, digest) => {
    expect(sha1(ascii(text))).toBe(digest);
  });

  test("a million times a", () => {
    expect(sha1(new Uint8Array(1_000_000).fill(0x61))).toBe("34aa973cd4c4daa4f61eeb2bdbad27316534016f");
  });
});

// Node's own OpenSSL and zlib, and npm crc-32: independent implementations.
describe("the same as the platform and a library", () => {
  const theirs = (data: Uint8Array) => createHash("sha1").update(data).digest("hex");

  test("SHA-1 at every length near a block's end", () => {
    for (const length of lengths) {
      const data = Uint8Array.from({ length }, (_, i) => (i * 73 + 19) & 0xff);
      expect(sha1(data)).toBe(theirs(data));
    }
  });

  test("SHA-1 and CRC-32 of any bytes", () => {
    fc.assert(
      fc.property(bytes, (data) => {
        expect(sha1(data)).toBe(theirs(data));
        expect(crc32(data)).toBe(libraryCrc32.buf(data) >>> 0);
        // Older Node 20 releases have no zlib.crc32.
        if (typeof zlibCrc32 === "function") expect(crc32(data)).toBe(zlibCrc32(data));
      }),
    );
  });

  test("a view into a larger buffer is read from its own start", () => {
    const data = Uint8Array.from({ length: 300 }, (_, i) => i & 0xff).subarray(100, 230);
    expect(sha1(data)).toBe(theirs(data));
  });
});
