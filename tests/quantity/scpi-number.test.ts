import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseScpiNumber } from "../../server/src/quantity/scpi-number";

describe("the number an instrument sends", () => {
  test.each([
    ["580", 580, 1],
    ["+0.58", 0.58, 0.01],
    ["-12.10", -12.1, 0.01],
    [" +5.80120000E-01\r", 0.58012, 1e-9],
    ["1E3", 1000, 1000],
    [".5", 0.5, 0.1],
    ["-0.000E+00", 0, 0.001],
  ])("%s is %d, to %d", (answer, value, resolution) => {
    const read = parseScpiNumber(answer);
    expect(read).toMatchObject({ kind: "value", value });
    if (read.kind === "value") expect(read.resolution).toBeCloseTo(resolution, 15);
  });

  test.each([
    ["+9.90000000E+37", false],
    ["-9.9E37", true],
    ["9.9E+37", false],
  ])("%s is more than the range takes", (answer, negative) => {
    expect(parseScpiNumber(answer)).toEqual({ kind: "overload", negative });
  });

  test.each([
    ["", /empty/],
    ["9.91E37", /no number to give/],
    ["0.58,0.59", /2 values/],
    ["OPEN", /"OPEN", which is no number/],
    [`1.${"0".repeat(10)}x${"0".repeat(90)}`, /…/],
    ["0x10", /no number/],
    ["1e9999", /no number/],
  ])("%s cannot be used", (answer, says) => {
    const read = parseScpiNumber(answer);
    expect(read.kind).toBe("unusable");
    if (read.kind === "unusable") expect(read.reason).toMatch(says);
  });

  test("whatever is sent, nothing is thrown, and what JavaScript writes as a number is read as that number", () => {
    fc.assert(fc.property(fc.string(), (text) => void parseScpiNumber(text)));
    fc.assert(
      fc.property(fc.double({ min: -1e30, max: 1e30, noNaN: true }), (value) => {
        const read = parseScpiNumber(value.toExponential());
        expect(read).toMatchObject({ kind: "value", value: value === 0 ? 0 : value });
      }),
    );
  });
});
