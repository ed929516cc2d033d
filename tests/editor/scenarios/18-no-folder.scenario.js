import assert from "node:assert/strict";

const LOG = `---
mendlog: 1
job: T-009
stage: diagnosing
---

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U1  | 1   | 0.58    |
`;

export default {
  title: "a log opened without a folder is checked for what needs no board",
  workspace: null,
  folderless: true,
  files: { "alone.md": LOG },
  async run(editor) {
    await editor.openFile("alone.md");
    const place = editor.find("alone.md", "0.58");
    await editor.select(place.line, place.column, 4);
    await editor.typeText("O.58");
    const found = await editor.waitForProblem((it) => it.code === "unreadable-value");
    assert.deepEqual({ line: found.line, column: found.column }, place);
    await editor.screenshot("no-folder");
    await editor.select(place.line, place.column, 4);
    await editor.typeText("0.58");
    await editor.waitForNoProblem((it) => it.code === "unreadable-value");
    // The next window without a folder brings back what is left open in this one.
    await editor.save();
    await editor.command("View: Close All Editors");
    await editor.until("no editor", async () => (await editor.page.locator(".tab").count()) === 0);
  },
};
