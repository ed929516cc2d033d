import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decodeBank, encodeBank } from "../../../server/src/compute/memory/switch-settings";
import type { SwitchBank } from "../../../server/src/knowledge/types";
import { accepted, reasonOf } from "../matrix/support";

const BANK: SwitchBank = {
  ref: "SW1",
  settings: [
    {
      title: "Coins per race",
      switches: [2, 1],
      meaning: new Map([
        ["00", "one coin"],
        ["01", "two coins"],
        ["10", "three coins"],
        ["11", "free play"],
      ]),
    },
    {
      title: "Bell",
      switches: [3],
      meaning: new Map([
        ["0", "off"],
        ["1", "on"],
      ]),
    },
    {
      title: "Race",
      switches: [4, 5],
      meaning: new Map([
        ["00", "short"],
        ["01", "long"],
        ["11", "long"],
      ]),
    },
  ],
};
const on = (...numbers: number[]) => new Map([1, 2, 3, 4, 5].map((at) => [at, numbers.includes(at)]));

describe("decoding", () => {
  test("a whole bank, the first switch named being the most significant", () => {
    const { settings, unassigned } = decodeBank(BANK, on(1, 3, 5));
    expect(
      settings.map(({ pattern, candidates, state }) => [pattern, candidates.map((c) => c.meaning), state]),
    ).toEqual([
      ["01", ["two coins"], "decided"],
      ["1", ["on"], "decided"],
      ["01", ["long"], "decided"],
    ]);
    expect(unassigned).toEqual([]);
  });

  test("a switch not noted leaves every meaning that is still possible", () => {
    const [coins, bell] = decodeBank(BANK, new Map([[2, true]])).settings;
    expect(coins).toMatchObject({ pattern: "1?", state: "open", missing: [1] });
    expect(coins?.candidates.map(({ meaning }) => meaning)).toEqual(["three coins", "free play"]);
    expect(bell).toMatchObject({ pattern: "?", state: "open" });
  });

  test("unknown switches that change nothing leave it decided", () => {
    const race = decodeBank(BANK, new Map([[5, true]])).settings[2];
    expect(race).toMatchObject({ pattern: "?1", state: "decided", missing: [4] });
  });

  test("one listed meaning beside an unlisted pattern is still open", () => {
    const race = decodeBank(BANK, new Map([[4, true]])).settings[2];
    expect(race).toMatchObject({ state: "open", candidates: [{ pattern: "11", meaning: "long" }] });
  });

  test("a pattern the board file gives no meaning, and a switch it does not know", () => {
    const { settings, unassigned } = decodeBank(BANK, new Map([...on(4), [9, true]]));
    expect(settings[2]).toMatchObject({ pattern: "10", state: "undefined", candidates: [] });
    expect(unassigned).toEqual([9]);
  });

  test("malformed patterns of the board file are passed over", () => {
    const bank: SwitchBank = {
      ref: "S",
      settings: [
        {
          title: "T",
          switches: [1],
          meaning: new Map([
            ["x", "?"],
            ["10", "?"],
            ["1", "yes"],
          ]),
        },
      ],
    };
    expect(decodeBank(bank, new Map()).settings[0]?.candidates).toEqual([{ pattern: "1", meaning: "yes" }]);
  });
});

describe("encoding", () => {
  test("the settings wanted, any case; the others stay out", () => {
    const { positions } = accepted(encodeBank(BANK, new Map([["coins per race", "THREE coins"]])));
    expect([...positions]).toEqual([
      [2, true],
      [1, false],
    ]);
  });

  test("patterns that mean the same are named", () => {
    const { positions, alternatives } = accepted(encodeBank(BANK, new Map([["Race", "long"]])));
    expect([...positions]).toEqual([
      [4, false],
      [5, true],
    ]);
    expect(alternatives[0]?.patterns).toEqual(["01", "11"]);
  });

  test("a shared switch is set once, and refused where it cannot be", () => {
    const shared: SwitchBank = {
      ref: "S2",
      settings: [
        {
          title: "A",
          switches: [1, 2],
          meaning: new Map([
            ["01", "x"],
            ["10", "x"],
            ["00", "y"],
          ]),
        },
        {
          title: "B",
          switches: [2],
          meaning: new Map([
            ["0", "p"],
            ["1", "q"],
          ]),
        },
      ],
    };
    const { positions } = accepted(
      encodeBank(
        shared,
        new Map([
          ["A", "x"],
          ["B", "p"],
        ]),
      ),
    );
    expect([...positions].sort()).toEqual([
      [1, true],
      [2, false],
    ]);
    expect(
      reasonOf(
        encodeBank(
          shared,
          new Map([
            ["A", "y"],
            ["B", "q"],
          ]),
        ),
      ),
    ).toBe('No position of S2 gives "A" and "B" as wanted: they share a switch and need it on and off.');
  });

  test("slips get the nearest name, strangers the list", () => {
    expect(reasonOf(encodeBank(BANK, new Map([["Bel", "on"]])))).toBe(
      'SW1 has no setting "Bel". "Bell" is near.',
    );
    expect(reasonOf(encodeBank(BANK, new Map([["Bell", "loudest"]])))).toBe(
      '"Bell" has no meaning "loudest". It has: off, on.',
    );
  });
});

test("what is encoded decodes to what was wanted", () => {
  const wanted = fc.tuple(
    ...BANK.settings.map(({ title, meaning }) =>
      fc.constantFrom(...meaning.values()).map((text) => [title, text] as const),
    ),
  );
  fc.assert(
    fc.property(wanted, (pairs) => {
      const { positions } = accepted(encodeBank(BANK, new Map(pairs)));
      const { settings } = decodeBank(BANK, positions);
      expect(settings.map(({ setting, candidates }) => [setting.title, candidates[0]?.meaning])).toEqual(
        pairs,
      );
    }),
  );
});
