import assert from "node:assert/strict";
import { assertNoFault, eachSays, NO_LOG, NO_LOG_OR_BOARD } from "../every-command.js";

export default {
  title:
    "without any folder, commands say what they need before there is a server; a new log is begun unsaved, and works so",
  workspace: null,
  folderless: true,
  files: { "plain.md": "Just words.\n" },
  async run(editor) {
    const input = editor.page.locator(".quick-input-widget input.input").first();
    // Nothing here has asked for the server so far.
    await editor.openFile("plain.md");
    await eachSays(editor, { ...NO_LOG, ...NO_LOG_OR_BOARD }, "a window without a folder");

    // A palette opened before the editor has read what its extensions bring stays without it.
    await editor.until("the command", async () => {
      await editor.quickInput(">Mendlog: Start a new log");
      const there = (await editor.quickRows()).some((row) => row.startsWith("Mendlog: Start"));
      await editor.press("Escape");
      return there;
    });
    await editor.command("Mendlog: Start a new log");
    for (const [what, answer] of [
      [/What board is it\? Such as/, ""],
      [/Whose board/, "C. Sample"],
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
    for (const words of [/^owner: C. Sample$/m, /^symptoms: \[hums\]$/m]) assert.match(text, words);
    await editor.screenshot("new-log-no-folder");
    await editor.until(
      "a file that is not saved",
      async () => (await editor.page.locator(".tab.active.dirty").count()) === 1,
    );

    // The log that is nowhere on disk: nothing is found in it yet, and its report has to be put somewhere.
    await editor.byKey("mendlog.writeSuspects");
    await editor.told("nothing to suspect", /Readings within limits prove no part/);
    // Every chip of the library has a table, whatever is known of the board.
    await editor.byKey("mendlog.insertTable");
    await editor.until("the chips to choose from", async () => (await editor.listed()).length > 3);
    await editor.typeText("6821");
    await editor.until("the chip", async () => /^6821\b/.test((await editor.listed())[0] ?? ""));
    await editor.press("Escape");
    await editor.page.waitForSelector(".quick-input-widget", { state: "hidden" });
    // A disk that takes nothing is told of.
    await editor.byKey("mendlog.writeReport");
    await editor.until("the folders to choose from", async () => (await editor.listed()).length > 0);
    await input.fill("/proc/mendlog-report.html");
    // The dialog first goes to the folder that is named, and takes the name at the next Enter.
    await editor.until("word of the disk", async () => {
      if ((await editor.notifications()).some((one) => /mendlog-report\.html was not written: .+/.test(one)))
        return true;
      if (await input.isVisible()) await editor.press("Enter");
      await editor.page.waitForTimeout(300);
      return false;
    });
    assertNoFault(editor);
  },
};
