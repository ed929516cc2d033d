import { expect, test } from "vitest";
import { packagePins } from "../../server/src/knowledge/package-pins";

test.each([
  ["DIP-16", 16],
  ["dil 14", 14],
  ["CERDIP-24", 24],
  ["PDIP40", 40],
  ["SIP-9", 9],
  ["PLCC-44", 44],
  ["16-pin DIP", 16],
  ["8 pin", 8],
])("%s has %i pins", (name, pins) => {
  expect(packagePins(name)).toBe(pins);
});

test.each(["TO-92", "TO-220", "DO-41", "HC-49", "T-1 3/4", "header 2 x 9", "DIP-0", "DIP", ""])(
  "%j does not say",
  (name) => {
    expect(packagePins(name)).toBeUndefined();
  },
);
