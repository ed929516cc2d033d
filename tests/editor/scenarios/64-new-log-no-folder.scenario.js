import assert from "node:assert/strict";

export default {
  title: "a new log without any folder is begun unsaved, with what was answered in it",
  workspace: null,
  folderless: true,
  async run(editor) {
    const input = editor.page.locator(".quick-input-widget input.input").first();
    // A palette opened before the editor has read what its extensions bring stays without it.
    await editor.until("the command", async () => {
      await editor.quickInput(">Mendlog: Start a new log");
      const there = (await editor.quickRows()).some((row) => row.startsWith("Mendlog: Start"));
      await editor.press("Escape");
      return there;
    });
    await editor.command("Mendlog: Start a new log");
    for (const [what, answer] of [
      [/number in your books/, "X-7"],
      [/Whose board/, "C. Sample"],
      [/Serial number/, "00942"],
      [/What does it do wrong/, "hums"],
    ]) {
      await editor.until(`the question ${what}`, async () =>
        what.test(
          `${await input.getAttribute("placeholder")} ${await editor.page.locator(".quick-input-widget").textContent()}`,
        ),
      );
      await input.fill(answer);
      await editor.until("the answer", async () => (await input.inputValue()) === answer);
      await editor.press("Enter");
    }
    await editor.until("the log", async () => /stage: received/.test(await editor.editorText()));
    const text = await editor.editorText();
    for (const words of [/^job: X-7$/m, /^owner: C. Sample$/m, /^serial: "00942"$/m])
      assert.match(text, words);
    await editor.screenshot("new-log-no-folder");
    assert.equal(await editor.page.locator(".tab.dirty").count(), 1);
  },
};
