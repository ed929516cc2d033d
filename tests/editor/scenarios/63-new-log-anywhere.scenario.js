import assert from "node:assert/strict";
import { existsSync, readdirSync } from "node:fs";

const QUESTIONS = [/What board is it\? Such as/, /Whose board/, /What does it do wrong/];
const DIALOG = ".quick-input-widget";

export default {
  title:
    "a first log in an empty folder: Escape at each question leaves nothing, and nothing is written over",
  workspace: null,
  files: { "taken.md": "mine\n" },
  async run(editor) {
    const input = editor.page.locator(`${DIALOG} input.input`).first();
    const asks = (what) =>
      editor.until(`the question ${what}`, async () =>
        what.test(
          `${await input.getAttribute("placeholder")} ${await editor.page.locator(DIALOG).textContent()}`,
        ),
      );
    const begin = async (answers) => {
      await editor.command("Mendlog: Start a new log");
      for (let at = 0; ; at += 1) {
        if (QUESTIONS[at]) await asks(QUESTIONS[at]);
        else await editor.until("where to put it", async () => /\.md$/.test(await input.inputValue()));
        if (at === answers) return;
        await editor.press("Enter");
      }
    };
    const nothing = async (where) => {
      await editor.page.waitForSelector(DIALOG, { state: "hidden" });
      assert.deepEqual(readdirSync(editor.folder).sort(), ["taken.md"], where);
      assert.equal(await editor.page.locator(".tab").count(), 0, where);
      assert.deepEqual(await editor.notifications(), [], where);
    };

    for (let at = 0; at <= QUESTIONS.length; at += 1) {
      await begin(at);
      if (at === QUESTIONS.length) await editor.screenshot("new-log-where");
      await editor.press("Escape");
      await nothing(`left at ${at}`);
    }

    // A name that is taken: even a yes to the editor's own question does not cost the file.
    await begin(QUESTIONS.length);
    await input.fill(`${editor.folder}/taken.md`);
    await editor.press("Enter");
    await editor.until("the editor's question", async () =>
      /already exists/i.test((await editor.page.locator(DIALOG).textContent()) ?? ""),
    );
    await editor.press("Enter");
    await editor.until("the word that it stays", async () =>
      (await editor.notifications()).some((text) =>
        /taken\.md is there already and stays as it is/.test(text),
      ),
    );
    await editor.screenshot("new-log-taken");
    assert.equal(editor.readFile("taken.md"), "mine\n");
    await editor.until("the log, unsaved", async () => /mendlog: 1/.test(await editor.editorText()));
    assert.equal(await editor.page.locator(".tab.dirty").count(), 1, "the answers are kept, unsaved");
    assert.equal(existsSync(`${editor.folder}/taken-2.md`), false);

    // A disk that takes nothing: the answers are kept here, too.
    await editor.clearNotifications();
    await begin(QUESTIONS.length);
    await input.fill("/proc/mendlog-new.md");
    // The dialog first goes to the folder that is named, and takes the name at the next Enter.
    await editor.until("word of the disk", async () => {
      if (
        (await editor.notifications()).some((one) =>
          /mendlog-new\.md could not be written, so the new log is not saved yet: .+/.test(one),
        )
      )
        return true;
      if (await input.isVisible()) await editor.press("Enter");
      await editor.page.waitForTimeout(300);
      return false;
    });
    await editor.until(
      "both logs unsaved",
      async () => (await editor.page.locator(".tab.dirty").count()) === 2,
    );
    assert.match(await editor.editorText(), /mendlog: 1/);
  },
};
