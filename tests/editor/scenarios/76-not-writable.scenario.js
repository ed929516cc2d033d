import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";

export default {
  title:
    "a read-only log keeps its text: the suspects are refused in words, and its report can be asked for all the same",
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
  },
};
