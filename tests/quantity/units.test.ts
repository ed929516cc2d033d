import { describe, expect, test } from "vitest";
import { dimensionOfUnit, parseUnit, splitHeader, unitFromHeader } from "../../server/src/quantity/units";

describe("the unit in a header", () => {
  test.each([
    ["Reading (mV)", "Reading", "mV"],
    ["Reading [kΩ]", "Reading", "kΩ"],
    ["Drop, V", "Drop", "V"],
    ["Ripple (mVpp)", "Ripple", "mVpp"],
    ["Frequency / MHz", "Frequency", "MHz"],
    ["Delay in ms", "Delay", "ms"],
    ["Reading ( ohms )", "Reading", "ohms"],
  ])("%s is %s, in %s", (header, word, unit) => expect(splitHeader(header)).toEqual({ word, unit }));

  test.each(["Reading", "U14 (74LS04)", "Row / Column", "Reading (twice)", "On/off", "", "CRC-32"])(
    "%s holds none",
    (header) => {
      expect(unitFromHeader(header)).toBeUndefined();
      expect(splitHeader(header).word).toBe(header);
    },
  );
});

test.each([
  ["volts", "voltage"],
  ["uA", "current"],
  ["kilohms", "resistance"],
  ["MΩ", "resistance"],
  ["mmfd", "capacitance"],
  ["mH", "inductance"],
  ["khz", "frequency"],
  ["min", "time"],
  ["%", "ratio"],
  ["degC", "temperature"],
])("%s measures %s", (unit, dimension) => expect(dimensionOfUnit(unit)).toBe(dimension));

test.each(["", "VV", "k", "kk", "min5", "kmin", "x", "ohmm", "S"])("%s is no unit", (text) =>
  expect(parseUnit(text)).toBeUndefined(),
);
