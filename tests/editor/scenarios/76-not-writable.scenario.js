import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";

export default {
  title:
    "a read-only log is told of by every command that would write, and a log changed on disk keeps both texts",
  workspace: "../../demo",
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    const before = editor.readFile(LOG);
    const clear = () => editor.command("Notifications: Clear All Notifications");
    const says = (what, words) =>
      editor.until(what, async () => (await editor.notifications()).find((text) => words.test(text)));

    // Read-only: nothing is written, and it is said.
    await editor.command("File: Set Active Editor Read-only in Session");
    const cell = editor.find(LOG, "1.42");
    await editor.goTo(cell.line, cell.column);
    await editor.command("Mendlog: Write the suspects into this log");
    await editor.screenshot("read-only-suspects");
    await says("the suspects refused", /suspects were not written|cannot be changed/i);
    await clear();
    await editor.byKey("mendlog.nextRow");
    await editor.byKey("mendlog.insertTable");
    await editor.until("the tables offered", async () => (await editor.quickRows()).length > 1);
    await editor.press("Enter");
    await says("the table refused", /cannot be changed/);
    await editor.screenshot("read-only-table");
    await clear();
    assert.equal(await editor.page.locator(".tab.active.dirty").count(), 0);
    assert.equal(editor.readFile(LOG), before);
    // The report of a read-only log can be written all the same.
    await editor.byKey("mendlog.writeReport");
    const input = editor.page.locator(".quick-input-widget input.input").first();
    await editor.until("the save dialog", async () =>
      (await input.inputValue().catch(() => "")).endsWith("-report.html"),
    );
    await editor.press("Escape");
    await editor.command("File: Set Active Editor Writeable in Session");

    // Typed in and changed on disk: both stay, and the editor asks.
    await editor.goTo(cell.line, cell.column);
    await editor.typeText("9");
    editor.writeFile(LOG, `${before}\nFrom elsewhere.\n`);
    await editor.command("Mendlog: Write the suspects into this log");
    await editor.until("the suspects in the editor", async () => {
      await editor.command("Go to Last Edit Location").catch(() => {});
      return /Suspects/.test(await editor.editorText());
    });
    await editor.press("Control+S");
    await says("the editor's own question", /content of the file is newer/i);
    await editor.screenshot("changed-on-disk");
    assert.match(editor.readFile(LOG), /From elsewhere\.\n$/);
    assert.equal(await editor.page.locator(".tab.active.dirty").count(), 1);
  },
};
