import { expect, test } from "vitest";
import { plainHex, readBits, readHex, sayHex } from "../../../server/src/compute/memory/hex";

test.each([
  ["3F", 0x3f],
  ["0x3f", 0x3f],
  [" $0C00 ", 0xc00],
  ["3Fh", 0x3f],
  ["&H3F", 0x3f],
  ["10", 0x10],
  ["FFFFFFFF", 0xffffffff],
])("%j is hexadecimal", (text, value) => {
  expect(readHex(text)).toBe(value);
});

test.each(["", "3G", "12 34", "123456789", "-1", "0x"])("%j is not", (text) => {
  expect(readHex(text)).toBeUndefined();
});

test.each([
  ["3", [3]],
  ["3, 5", [3, 5]],
  ["D5 D3 D5", [3, 5]],
  ["0-3", [0, 1, 2, 3]],
  ["D4 to D7", [4, 5, 6, 7]],
  ["7–6", [6, 7]],
  ["bit 2", undefined],
  ["D4/D7", [4, 7]],
  ["1 and 3", [1, 3]],
  ["99", undefined],
  ["all", undefined],
  ["", undefined],
])("bits %j", (text, bits) => {
  expect(readBits(text)).toEqual(bits);
});

test("hexadecimal is said and compared at its full width", () => {
  expect(sayHex(0x3f, 4)).toBe("003F");
  expect(plainHex(" 0x1DD ", 4)).toBe("01dd");
  expect(plainHex("CBF43926h", 8)).toBe("cbf43926");
});
