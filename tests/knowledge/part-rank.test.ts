import { describe, expect, test } from "vitest";
import { builtinLibrary } from "../../server/src/knowledge/library";

const offered = (typed: string): readonly string[] =>
  builtinLibrary()
    .devicesMatching(typed)
    .map((match) => match.typed);

describe("part numbers in the order in which they are wanted", () => {
  test("classic numbers before those with a grade between their digits", () => {
    const all = offered("68");
    expect(all.slice(0, 5)).toEqual(["6800", "6801", "6802", "6803", "6808"]);
    const graded = all.findIndex((name) => /^68[AB]/.test(name));
    expect(graded).toBeGreaterThan(5);
    expect(all.slice(graded).every((name) => /^68[AB]/.test(name))).toBe(true);
  });

  test("the 74 series plain, then family by family as the device files list them", () => {
    const all = offered("74");
    expect(all.slice(0, 3)).toEqual(["7400", "7401", "7402"]);
    const letters = all.flatMap((name) => /^74([A-Z]+)\d/.exec(name)?.[1] ?? []);
    expect([...new Set(letters)]).toEqual(["LS", "S", "ALS", "F", "HC", "HCT", "C"]);
    // Neither is a family's part among the plain ones, nor does one family begin before the last has ended.
    expect(all.indexOf("74LS00")).toBeGreaterThan(all.indexOf("74688"));
    expect(letters.filter((one, at) => at > 0 && one !== letters[at - 1])).toHaveLength(6);
  });

  test("letters typed lead to their family in the order of its numbers", () => {
    const all = offered("74ls");
    expect(all.slice(0, 3)).toEqual(["74LS00", "74LS01", "74LS02"]);
    expect(all.every((name) => name.startsWith("74LS"))).toBe(true);
  });

  test.each(["7410", "74LS13", "8080", "2N2222", "4069"])(
    "%s itself first of all that begin with it",
    (typed) => {
      const all = offered(typed);
      expect(all.length).toBeGreaterThan(1);
      expect(all[0]).toBe(typed);
    },
  );

  test("another letter behind the same number stays beside it", () => {
    expect(offered("2N22")).toEqual(["2N2219", "2N2219A", "2N2222", "2N2222A"]);
    expect(offered("8T2")).toEqual(["8T26", "8T26A", "8T28"]);
  });

  test("a family's letters alone lead to its numbers, unless a number begins with them", () => {
    expect(offered("ls13").slice(0, 3)).toEqual(["74LS13", "74LS132", "74LS133"]);
    expect(offered("HC")[0]).toBe("74HC00");
    expect(offered("LM3").every((name) => name.startsWith("LM3"))).toBe(true);
    expect(offered("zzz")).toEqual([]);
  });

  test("numbers of another series that begin alike do not come between", () => {
    const all = offered("74");
    expect(all.indexOf("741")).toBeGreaterThan(all.indexOf("7496"));
  });
});
