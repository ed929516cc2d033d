import { readFileSync } from "node:fs";
import { expect, test } from "vitest";

interface Binding {
  readonly key: string;
  readonly command: string;
  readonly when?: string;
  readonly args?: { readonly commands?: readonly unknown[] };
}

const { keybindings, commands, menus } = JSON.parse(readFileSync("package.json", "utf8")).contributes;

/** What the editor itself does with keys in a text editor; from memory, the ones that a writer would miss first. */
const EDITOR_KEYS = new Set(
  (
    "ctrl+s ctrl+z ctrl+y ctrl+f ctrl+h ctrl+p ctrl+shift+p f1 f2 f8 shift+f8 f12 shift+f12 alt+f12 ctrl+space ctrl+. " +
    "ctrl+enter ctrl+shift+enter ctrl+/ ctrl+d ctrl+l ctrl+b ctrl+j ctrl+k ctrl+g ctrl+w ctrl+tab ctrl+shift+m ctrl+shift+v " +
    "alt+up alt+down shift+alt+up shift+alt+down ctrl+alt+up ctrl+alt+down ctrl+shift+k ctrl+shift+o ctrl+t ctrl+m " +
    "enter tab shift+tab escape"
  ).split(" "),
);

test("a key of the editor is only taken where a table or a waiting meter gives it a meaning", () => {
  expect(keybindings.length).toBeGreaterThan(4);
  for (const { key, command, when, args } of keybindings as readonly Binding[]) {
    expect(when, `${key} ${command}`).toMatch(/editorTextFocus/);
    expect(when, `${key} ${command}`).toMatch(/mendlog\.(?:inLog|inTable|meterWaiting)/);
    if (!EDITOR_KEYS.has(key)) continue;
    const first = args?.commands?.[0];
    // Undo is still undo: between a snippet's stops it only leaves them as well, in a row just begun it takes the row with it.
    if (key === "ctrl+z" && command === "mendlog.undoReading") {
      expect(when).toMatch(/mendlog\.readingsBehind && mendlog\.inLog/);
      continue;
    }
    if (key === "ctrl+z") {
      const only = /[^!]inSnippetMode.*mendlog\.inLog|!inSnippetMode && mendlog\.rowBegun && mendlog\.inLog/;
      expect([first, when]).toEqual(["undo", expect.stringMatching(only)]);
      continue;
    }
    expect(["enter", "tab", "shift+tab", "escape"], `${key} ${command}`).toContain(key);
    // A list that is open keeps its keys, or is dealt with first: its entry taken, or itself put away.
    if (first !== "acceptSelectedSuggestion" && first !== "hideSuggestWidget")
      expect(when, `${key} ${command}`).toMatch(/!suggestWidgetVisible/);
    // Between a snippet's stops the editor itself knows where it is; word of the table may come late.
    const somewhere = /[^!]inSnippetMode/.test(when ?? "")
      ? /mendlog\.inLog/
      : /mendlog\.(?:inTable|meterWaiting)/;
    expect(when, `${key} ${command}`).toMatch(somewhere);
  }
});

test("every command of ours says in the palette where it applies, in plain words", () => {
  const palette = new Map<string, string>(
    menus.commandPalette.map(({ command, when }: { command: string; when: string }) => [command, when]),
  );
  // They can be begun anywhere; from them a workspace gets its first log and its first board.
  const anywhere = ["mendlog.newLog", "mendlog.importBoard"];
  for (const { command, category } of commands) {
    expect(category, command).toBe("Mendlog");
    if (!anywhere.includes(command)) expect(palette.get(command), command).toBeTruthy();
  }
  for (const command of palette.keys())
    expect(commands.map((it: { command: string }) => it.command)).toContain(command);
});
