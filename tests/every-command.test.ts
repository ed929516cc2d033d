import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import {
  ANYWHERE,
  AS_EVER,
  NEEDS_MORE,
  NO_LOG,
  NO_LOG_OR_BOARD,
  QUIET_COMMANDS,
} from "./editor/every-command.js";
import { OWN_KEYS } from "./editor/server.js";

const commands: readonly { command: string }[] = JSON.parse(readFileSync("package.json", "utf8")).contributes
  .commands;
const told = { ...NO_LOG, ...NO_LOG_OR_BOARD, ...NEEDS_MORE };

test("the editor's scenarios can run every command by a key, and know what it does in the wrong place", () => {
  expect(commands.length).toBeGreaterThan(20);
  const known = [...Object.keys(told), ...AS_EVER, ...QUIET_COMMANDS, ...ANYWHERE];
  for (const { command } of commands) {
    expect(Object.keys(OWN_KEYS), command).toContain(command);
    expect(
      known.filter((id) => id === command),
      command,
    ).toEqual([command]);
  }
  for (const id of known) expect(Object.keys(OWN_KEYS), id).toContain(id);
});

test("no two commands share a key", () => {
  const keys = Object.values(OWN_KEYS);
  expect(new Set(keys).size).toBe(keys.length);
});

test("what a command says in the wrong place is among the texts of the client", () => {
  const texts = Object.keys(JSON.parse(readFileSync("l10n/bundle.l10n.json", "utf8")));
  for (const [id, words] of Object.entries(told))
    expect(
      texts.some((text) => words.test(text)),
      id,
    ).toBe(true);
});
