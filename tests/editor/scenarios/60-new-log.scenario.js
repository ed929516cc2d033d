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
    await asks(/Whose board/);
    await editor.typeText('O\'Brien: <script> "x"');
    await editor.screenshot("new-log-2-owner");
    await editor.press("Enter");
    await asks(/What does it do wrong/);
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
    await asks(/What does it do wrong/);
    await editor.typeText("row-dead, smells of lemon #3, buzzes");
    await editor.screenshot("new-log-3-complaint");
    await editor.press("Enter");

    await editor.until("the new log in front", async () => `logs/${await editor.activeFile()}` === NAME);
    const text = editor.readFile(NAME);
    assert.match(text, /^owner: "O'Brien: <script> \\"x\\""$/m);
    assert.match(text, /^symptoms: \[row-dead, "smells of lemon #3", buzzes\]$/m);
    assert.doesNotMatch(text, /^(?:serial|revision|meter|comeback-of):/m, "nobody was asked");
    assert.match(text, /^stage: received$/m);
    await editor.until("its text on the screen", async () => /Cautions/.test(await editor.editorText()));
    await editor.screenshot("new-log-6-written");
    // What was not asked is completed below the last line of the front matter, where the cursor is.
    assert.equal((await editor.cursor()).line, text.split("\n").indexOf("---", 1));
    editor.filterProblems(`${YEAR}-022`);
    await editor.typeText("\nserial: 01873\n");
    await editor.typeText("comeback-of: ");
    await editor.until("the job it was here for", async () =>
      (await editor.suggestions()).some((row) => row.startsWith("2026-004")),
    );
    await editor.press("Escape");
    await editor.typeText("2026-004");
    await editor.press("Escape");
    assert.deepEqual(
      (await editor.problems()).filter(({ file }) => file?.includes("-022")),
      [],
    );

    // Enter alone skips: nothing is picked, nothing is stated.
    await editor.command("Mendlog: Start a new log");
    for (const what of [/Which board/, /Whose board/, /What does it do wrong/]) {
      await asks(what);
      await editor.press("Enter");
    }
    const empty = `logs/${YEAR}-023.md`;
    await editor.until("the empty log in front", async () => `logs/${await editor.activeFile()}` === empty);
    assert.match(
      editor.readFile(empty),
      new RegExp(
        `^---\nmendlog: 1\njob: ${YEAR}-023\nreceived: ${YEAR}-\\d\\d-\\d\\d\nstage: received\n---\n`,
      ),
    );
  },
};
