import assert from "node:assert/strict";

const LOG = "logs/back.md";
const TEXT = `---
mendlog: 1
job: 2026-030
board: regatta-controller
---

# Back

![edge](pictures/edge.png) and [before](2026-004-controller.md#work-done).

## ROM check

| Ref | Image             | CRC-32   |
|-----|-------------------|----------|
| U2  | pictures/u2.bin   | 9d1f4c72 |
`;

export default {
  title: "a file or folder renamed in the explorer is still led to by the logs, and the server follows it",
  workspace: "../../demo",
  files: { [LOG]: TEXT, "logs/pictures/edge.png": "x", "logs/pictures/u2.bin": "x" },
  async run(editor) {
    const { page } = editor;
    await editor.openFile(LOG);
    await editor.awake();
    const rename = async (name, next) => {
      const row = page.locator(".explorer-folders-view .monaco-list-row", { hasText: name }).first();
      await row.click();
      await row.press("F2");
      const box = page.locator(".explorer-folders-view input.input");
      await box.waitFor();
      await box.fill(next);
      await box.press("Enter");
      // The editor asks before an extension's edits go with a move.
      await page.locator(".monaco-dialog-box").getByRole("button", { name: "OK" }).click();
    };
    await rename("pictures", "photos");
    await editor.until("the paths in the log on screen", async () =>
      /photos\/edge\.png/.test(await editor.editorText()),
    );
    await editor.screenshot("moved-folder");
    await rename("2026-004-controller.md", "first.md");
    await editor.until("the file's new name", async () => (await editor.activeFile()) === "first.md");
    // The log may be told of the new name only after the tab is.
    await editor.until("the saved log", async () => {
      await editor.command("File: Save All Files");
      return /\(first\.md#work-done\)/.test(editor.readFile(LOG));
    });
    const now = editor.readFile(LOG);
    assert.equal(
      now,
      TEXT.replace("pictures/edge", "photos/edge")
        .replace("pictures/u2", "photos/u2")
        .replace("2026-004-controller.md", "first.md"),
    );
    await editor.screenshot("moved-file");
  },
};
