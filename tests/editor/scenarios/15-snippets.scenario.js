import assert from "node:assert/strict";

const LOG = "logs/quiet.md";

export default {
  title: "a snippet writes a heading with its table; Tab walks through it",
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    await editor.press("Control+End");
    await editor.typeText("\nmend-supply");
    const rows = await editor.complete();
    assert.ok(
      rows.some((row) => row.startsWith("mend-supply-rails")),
      rows.join(" / "),
    );
    await editor.screenshot("snippets");
    await editor.acceptCompletion("mend-supply-rails");
    await editor.until("the table", async () => /^\| Rail /m.test(await editor.editorText()));
    await editor.press("Tab");
    await editor.typeText("+5V");
    await editor.press("Tab");
    await editor.typeText("4.2 V");
    const low = await editor.waitForProblem((it) => it.file === LOG && it.code === "rail-out-of-tolerance");
    assert.match(low.message, /\+5V reads 4\.2 V/);
    await editor.save();
    assert.match(editor.readFile(LOG), /## Supply rails\n\n\| Rail .*\|\n\|-.*\|\n\| \+5V +\| 4\.2 V /);
  },
};
