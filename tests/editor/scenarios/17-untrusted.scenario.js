import assert from "node:assert/strict";
import { assertNoFault } from "../every-command.js";

const LOG = "logs/faulty.md";

export default {
  title: "a workspace that is not trusted is checked all the same, and every command works but for its meter",
  trusted: false,
  settings: { "mendlog.meter.address": "127.0.0.1:9" },
  async run(editor) {
    const { page } = editor;
    await editor.until("restricted mode", async () =>
      /restricted mode/i.test((await page.locator(".statusbar").textContent()) ?? ""),
    );
    await editor.openFile(LOG);
    const open = await editor.waitForProblem((it) => it.code === "diode-out-of-window");
    assert.match(open.message, /U14 pin 2/);
    await editor.screenshot("untrusted");

    // An address that came with the folder is not asked, and it is said why.
    await editor.byKey("mendlog.readMeter");
    await editor.told(
      "the meter refused",
      /Restricted Mode an address among the workspace's settings does not count/,
    );
    await editor.byKey("mendlog.writeSuspects");
    await editor.until("the suspects in the log", async () => /## Suspects/.test(await editor.editorText()));
    await editor.save();
    assert.match(editor.readFile(LOG), /## Suspects/);
    await editor.byKey("mendlog.newLog");
    await editor.until("the first question", async () =>
      (await editor.listed()).some((row) => row.startsWith("Sample controller")),
    );
    await editor.press("Escape");
    assertNoFault(editor);
  },
};
