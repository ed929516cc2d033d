import assert from "node:assert/strict";
import { existsSync } from "node:fs";

const YEAR = new Date().getFullYear();
const NAME = `logs/${YEAR}-022-controller.md`;

export default {
  title:
    "a log is started question by question, gone back in, left without a trace, and written where the others are",
  workspace: "../../demo",
  async run(editor) {
    await editor.openFile("logs/2026-004-controller.md");
    await editor.awake();
    const input = editor.page.locator(".quick-input-widget input.input").first();
    const asks = (what) =>
      editor.until(`the question ${what}`, async () => {
        const box = editor.page.locator(".quick-input-widget");
        const said = `${await input.getAttribute("placeholder")} ${await box.textContent()}`;
        return what.test(said);
      });

    // Left by Escape, nothing is there.
    await editor.command("Mendlog: Start a new log");
    await asks(/Which board/);
    await editor.screenshot("new-log-1-board");
    await editor.press("Escape");
    await editor.page.waitForSelector(".quick-input-widget", { state: "hidden" });
    assert.equal(existsSync(`${editor.folder}/${NAME}`), false);

    await editor.command("Mendlog: Start a new log");
    await asks(/Which board/);
    await editor.typeText("controller");
    await editor.press("Enter");
    await asks(/number in your books/);
    assert.equal(await input.inputValue(), YEAR === 2026 ? "2026-022" : `${YEAR}-001`);
    // A number that another log has is told of.
    await input.fill("2026-004");
    await editor.until("the warning", async () =>
      /already/.test(await editor.page.locator(".quick-input-message").textContent()),
    );
    await editor.screenshot("new-log-2-job");
    await input.fill(`${YEAR}-022`);
    await editor.press("Enter");
    await asks(/Whose board/);
    await editor.typeText('O\'Brien: <script> "x"');
    await editor.screenshot("new-log-3-owner");
    await editor.press("Enter");
    await asks(/Serial number/);
    // Back, and forth again: the answer is still there.
    await editor.page.locator(".quick-input-widget .codicon-quick-input-back").click();
    await asks(/Whose board/);
    await editor.until("the answer given before under the cursor", async () =>
      /O'Brien/.test(
        (await editor.page
          .locator(".quick-input-widget .monaco-list-row.focused")
          .getAttribute("aria-label")
          .catch(() => "")) ?? "",
      ),
    );
    await editor.press("Enter");
    await asks(/Serial number/);
    await editor.typeText("01873");
    await editor.press("Enter");
    await asks(/was here before/);
    await editor.screenshot("new-log-4-comeback");
    await editor.press("Enter");
    await asks(/revision/);
    await editor.typeText("B");
    await editor.press("Enter");
    await asks(/What does it do wrong/);
    await editor.page.locator(".quick-input-widget .monaco-list-row", { hasText: "row-dead" }).click();
    await editor.until("one ticked", async () =>
      /1 Selected/.test((await editor.page.locator(".quick-input-count").textContent()) ?? ""),
    );
    await input.fill("smells of lemon #3, buzzes");
    await editor.until("both ticked", async () =>
      /2 Selected/.test((await editor.page.locator(".quick-input-count").textContent()) ?? ""),
    );
    await editor.screenshot("new-log-5-symptoms");
    await editor.press("Enter");
    await asks(/Which meter/);
    await editor.press("Enter");

    await editor.until("the new log in front", async () => `logs/${await editor.activeFile()}` === NAME);
    const text = editor.readFile(NAME);
    assert.match(text, /^owner: "O'Brien: <script> \\"x\\""$/m);
    assert.match(text, /^serial: "01873"$/m);
    assert.match(text, /^symptoms: \[row-dead, "smells of lemon #3", buzzes\]$/m);
    assert.match(text, /^comeback-of: 2026-004$/m);
    assert.match(text, /^revision: B$/m);
    assert.match(text, /^stage: received$/m);
    await editor.until("its text on the screen", async () => /Cautions/.test(await editor.editorText()));
    await editor.screenshot("new-log-6-written");
    // The checks have nothing against it.
    editor.filterProblems(`${YEAR}-022`);
    await editor.typeText(" ");
    await editor.press("Backspace");
    assert.deepEqual(
      (await editor.problems()).filter(({ file }) => file?.includes("-022")),
      [],
    );
  },
};
