import assert from "node:assert/strict";

const LOG = "logs/probing.md";
const FIXED = "logs/fixed.md";
const HEAD = "---\nmendlog: 1\nboard: sample\n---\n\n";
const TABLE = "## Diode check\n\n| Pin | U14   | U15   |\n|-----|-------|-------|\n| 1   |       |       |\n";
const PROSE = "\n## Shopping\n\n| What | Much |\n|------|------|\n| wire | 1 m  |\n";

export default {
  title: "Tab and Shift+Tab walk the cells of a readings table, and are themselves anywhere else",
  files: { [LOG]: HEAD + TABLE + PROSE, [FIXED]: HEAD + TABLE },
  settings: { "files.readonlyInclude": { "**/fixed.md": true } },
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    const { line } = editor.find(LOG, "| 1   |");
    await editor.goTo(line, 9);
    await editor.tableKeys();
    await editor.typeText("0.58");
    await editor.press("Tab");
    await editor.until("the next cell", async () => (await editor.cursor()).column > 15);
    await editor.typeText("0.57");
    await editor.press("Tab");
    await editor.until("the next row", async () => (await editor.cursor()).line === line + 1);
    await editor.press("Shift+Tab");
    await editor.until("the cell before", async () => (await editor.cursor()).column < 9);
    await editor.press("Shift+Tab");
    await editor.until("the row before", async () => (await editor.cursor()).line === line);
    await editor.screenshot("table-keys");
    await editor.save();
    assert.ok(editor.readFile(LOG).includes("\n| 2   |"), editor.readFile(LOG));

    // In a table that is none of readings both keys are what they always are.
    const wire = editor.find(LOG, "| wire | 1 m  |");
    await editor.goTo(wire.line);
    await editor.press("End");
    await editor.press("Enter");
    await editor.cursorAt(wire.line + 1, 1);
    await editor.press("Tab");
    await editor.until("a tab", async () => (await editor.cursor()).column > 1);

    // Nothing is written into a document that cannot be written, and the editor says so.
    await editor.openFile(FIXED);
    await editor.goTo(10, 9);
    await editor.tableKeys();
    await editor.press("Enter");
    await editor.until("word of it", async () =>
      /read-only/.test((await editor.page.textContent("body")) ?? ""),
    );
    await editor.screenshot("table-keys-read-only");
    await editor.command("Mendlog: Go to the next row of this table");
    await editor.until("word of it from the command", async () =>
      (await editor.notifications()).some((text) => /read-only, so nothing was written/.test(text)),
    );
    assert.equal(editor.readFile(FIXED), HEAD + TABLE);
  },
};
