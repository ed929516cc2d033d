import assert from "node:assert/strict";

const LOG = "logs/2026-031-controller.md";
const TEXT = `---
mendlog: 1
job: 2026-031
board: regatta-controller
symptoms: [row-dead]
stage: diagnosing
---

# Row 7 dead

## Diode check before repair

| Ref | Pin | Reading | Note |
|-----|-----|---------|------|
| U14 | 14  | 0.312   |      |
| U14 | 1   | OL      | odd  |

## Supply rails, loaded

`;

export default {
  title:
    "missing pins, rows in order, a copy for after the repair and the rails, each from the menu at its place",
  workspace: "../../demo",
  async run(editor) {
    editor.writeFile(LOG, TEXT);
    await editor.openFile(LOG, 16, 4);
    await editor.awake();
    await editor.quickFix("Sort the rows by part and pin");
    await editor.until("the first pin on top", async () =>
      /\| U14 \| 1 .*\n\| U14 \| 14/.test(await editor.editorText()),
    );
    await editor.goTo(16, 4);
    await editor.quickFix("Add the 12 missing pins of U14");
    await editor.until("a row for pin 13", async () => /\| U14 \| 13 /.test(await editor.editorText()));
    await editor.goTo(16, 4);
    const offered = await editor.fixes();
    assert.ok(
      offered.some((it) => it.includes('Copy as an empty table under "Diode check after repair"')),
      offered.join(),
    );
    await editor.screenshot("table-actions");
    await editor.press("Escape");
    await editor.quickFix("Copy as an empty table");
    await editor.until("the heading of the copy", async () =>
      (await editor.editorText()).includes("## Diode check after repair"),
    );
    await editor.press("Control+End");
    await editor.quickFix("Insert a row for each rail");
    await editor.until("the rails", async () => /\| VMEM \|/.test(await editor.editorText()));
    await editor.screenshot("rows-done");
    await editor.save();
    const text = editor.readFile(LOG);
    const copy = text.slice(text.indexOf("## Diode check after repair"), text.indexOf("## Supply rails"));
    assert.equal(copy.match(/^\| U14 \| \d+ +\| {9}\| {6}\|$/gm)?.length, 14, copy);
    assert.match(text, /\| U14 \| 1 {3}\| OL {6}\| odd {2}\|\n\| U14 \| 2 {3}\| {9}\| {6}\|\n/);
    assert.match(text, /## Supply rails, loaded\n\n\| Rail \| Reading \| Ripple \| Note \|\n/);
  },
};
