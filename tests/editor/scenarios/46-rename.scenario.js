import assert from "node:assert/strict";

const LOG = "logs/2026-004-controller.md";
const OTHER = "logs/2026-018-controller.md";
const BOARD = "boards/regatta-controller.board.yaml";

export default {
  title: "F2 renames a designator in its board file and every log of that board, and asks about words first",
  workspace: "../../demo",
  async run(editor) {
    const { page } = editor;
    await editor.openFile(LOG);
    await editor.awake();
    const place = editor.find(LOG, "U14 | replaced");
    const box = page.locator(".rename-box input, .rename-input-with-button input").first();
    const rename = async (name) => {
      await editor.goTo(place.line, place.column + 1);
      await editor.press("F2");
      await box.waitFor();
      assert.equal(await box.inputValue(), "U14");
      await box.fill(name);
      await editor.press("Enter");
    };

    // A name that is taken is refused in words.
    await rename("U15");
    await editor.until("the refusal", async () =>
      (await page.locator(".monaco-workbench").textContent())?.includes("another part of regatta-controller"),
    );
    await editor.screenshot("rename-refused");
    await editor.press("Escape");

    const jobs = () => page.locator(".sidebar .monaco-list-row", { hasText: "2026-018" }).count();
    await editor.command("Mendlog: Focus on Jobs View");
    await editor.until("the job in the view", async () => (await jobs()) === 1);
    await editor.focusEditor();
    await rename("U44");
    // Words that say the name are shown first, unticked; the rest is done with one click.
    const apply = page.getByRole("button", { name: "Apply" }).first();
    await apply.waitFor();
    await editor.screenshot("rename-preview");
    // What is only shown as it would be is no job of its own.
    assert.equal(await jobs(), 1, "each job once");
    await apply.click();
    await apply.waitFor({ state: "hidden" });
    await editor.command("File: Save All Files");
    await editor.until(
      "the new name in the board file and in another log",
      () => editor.readFile(BOARD).includes("  U44: {") && editor.readFile(OTHER).includes("| U44"),
    );
    assert.match(editor.readFile(LOG), /\| U44 \| replaced/);
    assert.match(editor.readFile(LOG), /U12 and U14 were replaced for it/);
    assert.doesNotMatch(editor.readFile(BOARD), /\bU14\.\d/);
    await editor.screenshot("renamed");
  },
};
