import { expect, test } from "vitest";
import { builtinLibrary } from "../../server/src/knowledge/library";
import { numberMeant } from "../../server/src/knowledge/number-meant";

test.each([
  ["74LSO4", "74LS04"],
  ["74O4", "7404"],
  ["74SL04", "74LS04"],
  ["74LS0B", "74LS08"],
  ["6BO9", "6809"],
])("%s is %s misread or mistyped", (typed, meant) => {
  expect(numberMeant(typed, builtinLibrary())).toBe(meant);
});

test.each([
  ["74LS04", "the library knows it"],
  ["74H00", "its pins are known, and no slip makes another family of it"],
  ["74LS183", "a figure read as a letter makes no family"],
  ["74LS999", "no figure is taken for another"],
  ["XC-1234", "nothing is like it"],
  ["", "nothing is typed"],
])("%s: %s", (typed) => {
  expect(numberMeant(typed, builtinLibrary())).toBeUndefined();
});
