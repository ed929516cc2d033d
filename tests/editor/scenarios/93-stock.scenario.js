import assert from "node:assert/strict";

const LOG = "logs/2026-032.md";
const SHOP = "mendlog.shop.yaml";
const STOCK = `mendlog-shop: 1
name: Example bench
count-stock: yes
stock:
  - { part: 74LS04, quantity: 3 }
  - { part: 74LS14, quantity: 2 }
`;
const WORK = `---
mendlog: 1
job: 2026-032
board: sample
---

## Parts fitted

| Part   | Quantity | Ref      |
|--------|----------|----------|
| 74LS04 | 2        | U14, U15 |
`;

export default {
  title:
    "parts fitted are taken from the stock: both edits are shown, then made, and each file takes one undo",
  files: { [LOG]: WORK, [SHOP]: STOCK },
  async run(editor) {
    const { page } = editor;
    await editor.openFile(SHOP);
    await editor.openFile(LOG);
    await editor.awake();
    editor.filterProblems("stock-not-counted");
    const found = await editor.waitForProblem((it) => it.file === LOG && it.code === "stock-not-counted");
    assert.match(found.message, /take 2 x 74LS04/);
    await editor.goTo(found.line, found.column + 1);
    const title = "Take 2 x 74LS04 from the stock";
    assert.ok((await editor.fixes()).includes(title));
    await editor.screenshot("stock-fix");
    await editor.press("Escape");
    await editor.quickFix(title);

    // Nothing is made before it is agreed to.
    const apply = page.getByRole("button", { name: "Apply" }).first();
    await apply.waitFor();
    const shown = () =>
      page.$$eval(".refactor-preview-panel, .pane-body, .panel .monaco-list", (all) =>
        all.map((one) => one.textContent ?? "").join("\n"),
      );
    await editor.until("both files in the preview", async () => {
      const text = await shown();
      return text.includes("2026-032.md") && text.includes(SHOP);
    });
    await editor.screenshot("stock-preview");
    assert.equal(editor.readFile(LOG), WORK);
    assert.equal(editor.readFile(SHOP), STOCK);
    // What is agreed to is done as a whole, without a tick.
    await apply.click();
    await apply.waitFor({ state: "hidden" });
    await editor.command("File: Save All Files");
    await editor.until(
      "both files changed",
      () =>
        editor.readFile(LOG).includes('stock-taken: { "74LS04": 2 }') &&
        editor.readFile(SHOP).includes("{ part: 74LS04, quantity: 1 }"),
    );
    await editor.waitForNoProblem((it) => it.code === "stock-not-counted");
    await editor.screenshot("stock-taken");

    for (const [file, text] of [
      [SHOP, STOCK],
      [LOG, WORK],
    ]) {
      await editor.openFile(file);
      await editor.focusEditor();
      await editor.press("Control+Z");
      await answerUndo(editor);
      await editor.command("File: Save All Files");
      await editor.until(`one undo in ${file}`, () => editor.readFile(file) === text);
    }
    editor.filterProblems("stock-not-counted");
    await editor.waitForProblem((it) => it.file === LOG && it.code === "stock-not-counted");
  },
};

/** The editor may ask whether to undo an edit of several files in all of them: in this file alone. */
async function answerUndo({ page }) {
  const only = page.getByRole("button", { name: "Undo this File" }).first();
  await only.waitFor({ timeout: 2_000 }).then(
    () => only.click(),
    () => {},
  );
}
