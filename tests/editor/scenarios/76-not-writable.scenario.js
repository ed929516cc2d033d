import assert from "node:assert/strict";
import { chmodSync } from "node:fs";
import { assertNoFault } from "../every-command.js";

const NAMES = ["logs/faulty.md", "frozen/by-setting.md", "locked/by-mode.md"];
const TEXT = `---
mendlog: 1
job: T-050
board: sample
received: 2026-03-02
stage: diagnosing
---

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
| U14 | 2   | 1.42    |
`;
const WAY = /read-only.*Set Active Editor Writeable in Session/;

export default {
  title:
    "a log that is read-only for the session, by a setting or by its file's mode keeps its text: what would write says so",
  files: { "logs/faulty.md": TEXT, "frozen/by-setting.md": TEXT, "locked/by-mode.md": TEXT },
  settings: { "files.readonlyInclude": { "frozen/**": true }, "files.readonlyFromPermissions": true },
  async run(editor) {
    const { page } = editor;
    chmodSync(`${editor.folder}/locked/by-mode.md`, 0o444);
    await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    const cell = editor.find(NAMES[0], "1.42");
    const input = page.locator(".quick-input-widget input.input").first();

    for (const name of NAMES) {
      await editor.openFile(name);
      await editor.awake();
      if (name === NAMES[0]) await editor.byKey("workbench.action.files.setActiveEditorReadonlyInSession");
      await page.waitForSelector('.tab.active .tab-label[aria-label*="Read-only"]');
      await editor.goTo(cell.line, cell.column);
      await page.evaluate(() => navigator.clipboard.writeText("0.561\n0.562\n0.563\n"));
      const shown = await editor.editorText();

      await editor.byKey("mendlog.writeSuspects");
      await editor.told(
        "the suspects refused",
        new RegExp(`suspects were not written: the log is ${WAY.source}`),
      );
      await editor.byKey("mendlog.pasteColumn");
      await editor.told("the values refused", WAY);
      // The last row: Enter would add one.
      await editor.byKey("mendlog.nextRow");
      await editor.told("the row refused", WAY);
      await editor.byKey("mendlog.startRow");
      await editor.byKey("mendlog.previousCell");

      // A key of one's own asks first, since no extension is told beforehand; the palette does not even ask.
      await editor.byKey("mendlog.insertTable");
      await editor.until("the tables to choose from", async () =>
        (await editor.listed()).some((row) => row.startsWith("Supply rails")),
      );
      await editor.press("Enter");
      await editor.told("the table refused", WAY);
      if (name === NAMES[0]) {
        await editor.command("Mendlog: Insert a table of readings");
        await editor.told("the table refused at once", WAY);
        await page.waitForSelector(".quick-input-widget", { state: "hidden" });
        await editor.byKey("mendlog.writeSuspects");
        await editor.until("the word", async () => (await editor.notifications()).length > 0);
        await editor.screenshot("read-only-refused");
        await editor.clearNotifications();
      }

      // The editor's own.
      await editor.press("Control+Shift+I");
      await editor.byKey("editor.action.fixAll");

      // What only reads does its work.
      await editor.byKey("mendlog.refreshSuspects");
      await page
        .locator(".pane-body .monaco-list-row", { hasText: /about \d+ %: U14/ })
        .first()
        .waitFor();
      await editor.byKey("mendlog.writeReport");
      await editor.until("the save dialog", async () =>
        (await input.inputValue().catch(() => "")).endsWith("-report.html"),
      );
      await editor.press("Escape");
      await page.waitForSelector(".quick-input-widget", { state: "hidden" });

      assert.equal(await editor.editorText(), shown, name);
      assert.equal(await page.locator(".tab.dirty").count(), 0, name);
      assert.equal(editor.readFile(name), TEXT);
      assert.deepEqual(await editor.notifications(), []);
    }
    assertNoFault(editor);

    // What the message says is true.
    await editor.openFile(NAMES[0]);
    await editor.command("File: Set Active Editor Writeable in Session");
    await editor.byKey("mendlog.writeSuspects");
    await editor.until("the suspects in the log", async () => /## Suspects/.test(await editor.editorText()));
    await editor.save();
    assert.match(editor.readFile(NAMES[0]), /## Suspects/);
  },
};
