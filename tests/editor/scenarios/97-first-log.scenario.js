import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const DIALOG = ".quick-input-widget";

export default {
  title: "the first log of the README, step by step as it is written there, from an empty folder",
  workspace: null,
  files: {},
  async run(editor, { repository }) {
    const { press, typeText, until } = editor;
    const told = keysAndWords(readFileSync(join(repository, "README.md"), "utf8"));
    /** What is done next is what the README says next. */
    const says = (...words) => assert.deepEqual(told.splice(0, words.length), words);
    const key = async (name) => {
      says(name);
      await press(name.replaceAll("Ctrl", "Control"));
    };
    const type = async (words) => {
      says(words);
      await typeText(words);
    };
    const command = async (title) => {
      says("F1", title, "Enter");
      await editor.command(title);
    };
    const box = editor.page.locator(DIALOG);
    const asks = (what) => until(`the question ${what}`, async () => what.test(await box.textContent()));
    const shows = (what, pattern) => until(what, async () => pattern.test(await editor.editorText()));

    await command("Mendlog: Start a new log");
    await asks(/What board is it/);
    await type("Regatta controller");
    await key("Enter");
    await asks(/Whose board/);
    await key("Enter");
    await asks(/What does it do wrong/);
    await key("Enter");
    await until("the name it is given", async () =>
      /regatta-controller\.md$/.test(await box.locator("input.input").first().inputValue()),
    );
    await key("Enter");
    await shows("the new log", /board: regatta-controller/);
    const [name] = readdirSync(editor.folder).filter((each) => each.endsWith(".md"));

    await key("Ctrl+Shift+O");
    await until("the outline to choose from", async () => (await editor.quickRows()).length > 3);
    await type("Diode");
    await until("the heading", async () => /Diode check/.test((await editor.quickRows())[0] ?? ""));
    await key("Enter");
    await box.waitFor({ state: "hidden" });
    // A caution stands below the heading, and an empty line behind it.
    const text = editor.readFile(name).split("\n");
    // The status bar, which tells where the cursor is, comes a moment after it.
    const line = await until("the cursor at the heading", async () => {
      const at = await editor.cursor();
      return /^## Diode check/.test(text[at.line - 1] ?? "") && at.line;
    });
    assert.match(text.slice(line, line + 3).join("\n"), /\w/);
    const empty = text.findIndex((each, at) => at > line + 1 && each === "" && text[at - 1] !== "");
    for (let at = line; at <= empty; at += 1) await press("ArrowDown");

    await type("U5 7404");
    await until("the chip by its number", async () =>
      (await editor.suggestions()).some((row) => row.startsWith("U5 (7404) readings table")),
    );
    await key("Enter");
    await shows("its table", /\| U5 +\| 7404 +\| 1 /);
    for (const reading of ["0.571", "0.002", "0.573"]) {
      await type(reading);
      await key("Tab");
    }
    await key("Ctrl+Shift+M");
    const found = await editor.waitForProblem(({ code }) => code === "diode-out-of-window");
    assert.match(found.message, /U5 pin 2/);
    await editor.focusEditor();
    await editor.save();
    const at = editor.find(name, "0.002");
    await editor.hoverWord("0.002", { line: at.line, says: /Limits/ });
    await editor.page.mouse.move(900, 120);

    await command("Mendlog: Show the suspects");
    await until("the chip under suspicion", async () =>
      (await editor.page.$$eval(".pane .monaco-list-row", (rows) => rows.map((row) => row.textContent))).some(
        (row) => /: U5/.test(row ?? ""),
      ),
    );
    await editor.focusEditor();
    await command("Mendlog: Guide me to the next reading");
    await until("the cursor in a row to fill in", async () => {
      await editor.save();
      const now = await editor.cursor();
      return /^\|/.test(editor.readFile(name).split("\n")[now.line - 1] ?? "");
    });
    await editor.screenshot("first-log");
    assert.deepEqual(told, []);
  },
};

/** The keys, those pressed together with a plus, and the words to type, in the order in which the section names them. */
function keysAndWords(readme) {
  const [, section] = /^## Your first log.*\n([\s\S]*?)(?=^There is more|^## )/m.exec(readme) ?? [];
  assert.ok(section, "the README has no first log");
  return [...section.matchAll(/((?:<kbd>[^<]+<\/kbd>\+?)+)|`([^`]+)`/g)].map(
    ([, keys, words]) => words ?? keys.replaceAll(/<\/?kbd>/g, ""),
  );
}
