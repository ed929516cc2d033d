import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";
const labels = (rows) => rows.map((row) => row.split("  ")[0]);

export default {
  title: "a heading and a chip's whole readings table by completion, filled in by value and Tab",
  workspace: "../../demo",
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    await editor.press("Control+End");
    await editor.typeText("\n## Diode");
    const headings = await editor.complete({ ask: false });
    assert.ok(labels(headings).includes("## Diode check after repair"), headings.join(" / "));
    await editor.acceptCompletion("## Diode check after repair");

    await editor.typeText("\n\nU14");
    const rows = await editor.complete();
    const row = rows.find((it) => /^U14 readings table/.test(it));
    assert.ok(row, rows.join(" / "));
    await editor.screenshot("insert-table");
    await editor.acceptCompletion("U14 readings table");
    await editor.until("the table", async () => /^\| U14 \| 1 +\| +\| 1A/m.test(await editor.editorText()));

    // The cursor stands in the first reading; Tab leads to the next, and what was typed is judged at once.
    const first = await editor.until("the cursor in the first reading", async () => {
      const at = await editor.cursor();
      return at.column > "| U14 | 1   |".length && at;
    });
    await editor.typeText("0.558");
    await editor.press("Tab");
    const second = { line: first.line + 1, column: first.column };
    await editor.cursorAt(second.line, second.column);
    await editor.typeText("1.420");
    await editor.press("Tab");
    await editor.typeText("0.544");
    editor.filterProblems("diode-out-of-window");
    const open = await editor.waitForProblem((it) => it.file === LOG && it.line === second.line);
    assert.equal(open.code, "diode-out-of-window");
    assert.match(open.message, /U14 pin 2/);
    await editor.screenshot("inserted-table");

    await editor.save();
    const table = editor
      .readFile(LOG)
      .split("\n")
      .slice(first.line - 3);
    assert.match(table[0], /^\| Ref +\| Pin +\| Reading +\| Note +\|$/);
    assert.match(table[2], /^\| U14 \| 1 +\| 0\.558 +\| 1A input · net SW_ROW_7 +\|$/);
    assert.match(table[3], /^\| U14 \| 2 +\| 1\.420 /);
    assert.match(table[4], /^\| U14 \| 3 +\| 0\.544 /);
    // The row that the cursor is in is put in line as it is left.
    const left = table.slice(0, 16).filter((_, i) => i !== 4);
    assert.equal(new Set(left.map((line) => line.length)).size, 1, "the columns stay in line");
    const pins = table.slice(2, 16).map((line) => Number(line.split("|")[2]));
    assert.deepEqual(
      pins,
      Array.from({ length: 14 }, (_, i) => i + 1),
    );
  },
};
