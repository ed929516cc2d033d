import assert from "node:assert/strict";

const LOG = "logs/2026-004-controller.md";

const TWICE = "logs/2026-032-controller.md";
const TWICE_READ = `---
mendlog: 1
job: 2026-032
board: regatta-controller
stage: diagnosing
---

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.571   |
| U14 | 1   | 0.568   |
`;

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
    await editor.save();
    await editor.screenshot("converted-long");
    const long = editor.readFile(LOG);
    assert.match(long, /\n\| U12 \| 4 {3}\| 1\.487 {3}\|\n/);
    assert.match(long, /\n\| U14 \| 14 {2}\| 0\.312 {3}\|\n/);
    assert.doesNotMatch(long, /\n\| U14 \| 15/);

    await editor.goTo(editor.find(LOG, "| U12 | 4   | 1.487").line, 4);
    await editor.quickFix("Convert to a wide table, one column for each part");
    await editor.until("a column for each part", async () =>
      /\| Pin \| U12 /.test(await editor.editorText()),
    );
    await editor.save();
    await editor.screenshot("converted-wide");
    assert.equal(editor.readFile(LOG), before);

    // What cannot be done here stands in the menu too, once it is asked for, with the reason.
    editor.writeFile(TWICE, TWICE_READ);
    await editor.openFile(TWICE, 12, 4);
    const titles = () =>
      editor.page.$$eval(".action-widget .monaco-list-row.action", (rows) =>
        rows.map((row) => ({ text: row.textContent, off: row.classList.contains("option-disabled") })),
      );
    await editor.until("the pins that are missing, in the menu of changes", async () => {
      await editor.press("Escape");
      await editor.command("Refactor...");
      const until = Date.now() + 2_000;
      while (Date.now() < until)
        if ((await titles()).some(({ text }) => /missing.pins.of.U14/.test(text))) return true;
      return false;
    });
    await editor.page.locator(".action-widget").getByText("Show Disabled").click();
    const refused = await editor.until("the conversion that is refused", async () =>
      (await titles()).find(({ text }) => /Convert.to.a.wide.table/.test(text)),
    );
    await editor.screenshot("refactor-menu");
    assert.ok(refused.off, "the conversion cannot be picked");
    await editor.press("Escape");
  },
};
