import assert from "node:assert/strict";

const LOG = "logs/quiet.md";

export default {
  title: "completion inserts a readings table with a row for each pin of a chip",
  async run(editor) {
    await editor.openFile(LOG);
    await editor.press("Control+End");
    await editor.typeText("\n## Diode check after repair\n\nU20");
    const rows = await editor.complete();
    const row = rows.find((it) => /U20.*(table|pins|readings)/i.test(it));
    assert.ok(row, rows.join(" / "));
    await editor.screenshot("insert-table");
    await editor.acceptCompletion(row.split("  ")[0]);
    await editor.until("a row for pin 14", async () =>
      /^\| *(U20 *\| *)?14\b/m.test(await editor.editorText()),
    );
    const text = await editor.editorText();
    const pins = text
      .slice(text.indexOf("after repair"))
      .split("\n")
      .map((line) => /^\| *(?:U20 *\| *)?(\d+)\b/.exec(line)?.[1])
      .filter(Boolean)
      .map(Number);
    assert.deepEqual(
      pins,
      Array.from({ length: 14 }, (_, i) => i + 1),
    );
    await editor.screenshot("inserted-table");
  },
};
