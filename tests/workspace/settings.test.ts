import { expect, test } from "vitest";
import { DEFAULT_SETTINGS } from "../../server/src/checks/check";
import { settingsOf } from "../../server/src/workspace/settings";

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
