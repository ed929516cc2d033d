import assert from "node:assert/strict";

const LOG = "logs/2026-004-controller.md";

export default {
  title: "a wide table is turned into a long one and back, and a table that cannot be says why",
  workspace: "../../demo",
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    const before = editor.readFile(LOG);
    const row = editor.find(LOG, "| 4   | 1.487");
    await editor.goTo(row.line, 10);
    await editor.quickFix("Convert to a long table");
    await editor.until("a row for each reading", async () =>
      /\| Ref \| Pin \| Reading \|/.test(await editor.editorText()),
    );
    await editor.screenshot("converted-long");
    await editor.save();
    const long = editor.readFile(LOG);
    assert.match(long, /\n\| U12 \| 4 {3}\| 1\.487 {3}\|\n/);
    assert.match(long, /\n\| U14 \| 14 {2}\| 0\.312 {3}\|\n/);
    assert.doesNotMatch(long, /\n\| U14 \| 15/);

    await editor.goTo(editor.find(LOG, "| U12 | 4   | 1.487").line, 4);
    await editor.quickFix("Convert to a wide table, one column for each part");
    await editor.until("a column for each part", async () =>
      /\| Pin \| U12 /.test(await editor.editorText()),
    );
    await editor.screenshot("converted-wide");
    await editor.save();
    assert.equal(editor.readFile(LOG), before);

    // The menu for changes of the text tells what cannot be done here, and the reason.
    await editor.goTo(editor.find(LOG, "| U1  | 37  | pulse").line, 4);
    await editor.command("Refactor...");
    const menu = editor.page.locator(".action-widget");
    await editor.until("the menu of changes", async () =>
      /Add.the.36.missing.pins.of.U1/.test((await menu.textContent().catch(() => "")) ?? ""),
    );
    await editor.screenshot("refactor-menu");
    await editor.press("Escape");
  },
};
