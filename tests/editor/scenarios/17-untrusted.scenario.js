import assert from "node:assert/strict";

const LOG = "logs/faulty.md";

export default {
  title: "a workspace that is not trusted is checked all the same: nothing in it is run",
  trusted: false,
  async run(editor) {
    await editor.until("restricted mode", async () =>
      /restricted mode/i.test((await editor.page.locator(".statusbar").textContent()) ?? ""),
    );
    await editor.openFile(LOG);
    const open = await editor.waitForProblem((it) => it.code === "diode-out-of-window");
    assert.match(open.message, /U14 pin 2/);
    await editor.screenshot("untrusted");
  },
};
