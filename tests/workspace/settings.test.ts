import { describe, expect, test } from "vitest";
import { DEFAULT_SETTINGS, type OwnSettings } from "../../server/src/checks/check";
import type { ShopCheck } from "../../server/src/knowledge/types";
import { NO_CHECKS, settingsOf, withShop } from "../../server/src/workspace/settings";

const named = (level: "error" | "hint") => ({ severity: new Map([["unknown-board", level]]) });
const OUTER = named("error");
const INNER = named("hint");

test("a file goes by the innermost folder it lies in", () => {
  const settings = {
    otherwise: DEFAULT_SETTINGS,
    folders: [
      { uri: "file:///bench/logs", settings: INNER },
      { uri: "file:///bench/", settings: OUTER },
    ],
  };
  expect(settingsOf(settings, "file:///bench/logs/a.md")).toBe(INNER);
  expect(settingsOf(settings, "file:///bench/a.md")).toBe(OUTER);
  expect(settingsOf(settings, "file:///bench/logs-of-old/a.md")).toBe(OUTER);
  expect(settingsOf(settings, "file:///benches/a.md")).toBe(DEFAULT_SETTINGS);
});

describe("the shop file's checks below a person's own settings", () => {
  const own: OwnSettings = {
    severity: new Map([
      ["unknown-board", "default"],
      ["unknown-heading", "error"],
    ] as const),
    options: new Map([["net-disagreement", new Map([["margin", 3]])]]),
  };
  const shop = new Map<string, ShopCheck>([
    ["unknown-board", { severity: "off", options: new Map() }],
    ["unknown-heading", { severity: "hint", options: new Map() }],
    ["text-in-table", { severity: "off", options: new Map() }],
    [
      "net-disagreement",
      {
        options: new Map([
          ["margin", 2],
          ["other", 7],
        ]),
      },
    ],
  ]);

  test("a person's own word comes first, check by check and number by number", () => {
    expect(withShop(own, shop)).toEqual({
      severity: new Map([
        ["unknown-heading", "error"],
        ["text-in-table", "off"],
      ]),
      options: new Map([
        [
          "net-disagreement",
          new Map([
            ["margin", 3],
            ["other", 7],
          ]),
        ],
      ]),
    });
    expect(withShop(own, NO_CHECKS).severity).toEqual(new Map([["unknown-heading", "error"]]));
    expect(withShop(DEFAULT_SETTINGS, NO_CHECKS)).toEqual(DEFAULT_SETTINGS);
  });

  test("two settings of one shop are kept side by side, so that nothing is judged again", () => {
    const first = withShop(own, shop);
    const other = withShop(DEFAULT_SETTINGS, shop);
    expect(withShop(own, shop)).toBe(first);
    expect(withShop(DEFAULT_SETTINGS, shop)).toBe(other);
    expect(withShop(own, new Map(shop))).not.toBe(first);
  });
});
