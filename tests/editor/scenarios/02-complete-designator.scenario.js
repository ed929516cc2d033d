import assert from "node:assert/strict";

const LOG = "logs/quiet.md";

export default {
  title: "typing into a table's first column offers the board's designators",
  async run(editor) {
    await editor.openFile(LOG);
    const last = editor.find(LOG, "| U14 | 3");
    await editor.goTo(last.line);
    await editor.press("End");
    await editor.typeText("\n| U");
    const rows = await editor.complete();
    const offered = rows.map((row) => row.split("  ")[0]);
    for (const ref of ["U14", "U15", "U20"])
      assert.ok(offered.includes(ref), `${ref} among ${offered.join(", ")}`);
    await editor.screenshot("complete-designator");
    await editor.acceptCompletion("U15");
    const lines = (await editor.editorText()).split("\n");
    assert.match(lines[last.line], /^\| U15\b/, "the typed U is replaced, not doubled");
  },
};
