import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";

export default {
  title:
    "a table of the board's chips is picked from the palette, put at the end and filled in down its columns",
  workspace: "../../demo",
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    await editor.press("Control+End");
    await editor.command("Mendlog: Insert a table of readings");
    const rows = await editor.until("the tables to choose from", async () => {
      const all = await editor.quickRows();
      return all.some((row) => row.startsWith("Supply rails")) && all;
    });
    assert.ok(
      rows.some((row) => /^Resistance to ground.*\+5V, \+12V, VMEM/.test(row)),
      rows.join(" / "),
    );
    await editor.until("the list to have faded in", () =>
      editor.page.$eval(".quick-input-widget", (list) => getComputedStyle(list).opacity === "1"),
    );
    await editor.screenshot("insert-table-pick");
    await editor.typeText("U13, U14");
    await editor.until("the circuit alone", async () =>
      /Switch matrix/.test((await editor.quickRows())[0] ?? ""),
    );
    await editor.press("Enter");
    await editor.until("the table", async () =>
      /\| Pin \| U10 +\| U12 +\| U13 +\| U14/.test(await editor.editorText()),
    );
    const first = await editor.until("the cursor in the first reading", async () => {
      const at = await editor.cursor();
      return at.column > "| 1   |".length && at;
    });
    await editor.typeText("0.001");
    await editor.press("Tab");
    await editor.cursorAt(first.line + 1, first.column);
    await editor.typeText("0.571");
    await editor.screenshot("insert-table-filled");
    await editor.save();
    const written = editor
      .readFile(LOG)
      .split("\n")
      .slice(first.line - 5);
    assert.match(written.join("\n"), /^\n?## Diode check\n\n\| Pin \| U10/m);
    const table = written.filter((line) => line.startsWith("|"));
    assert.match(table[2], /^\| 1 {3}\| 0\.001 {3}\|/);
    assert.match(table[3], /^\| 2 {3}\| 0\.571 +\|/);
    // The row that the cursor is in is put in line as it is left.
    const left = table.filter((_, i) => i !== 3);
    assert.equal(new Set(left.map((line) => line.length)).size, 1, "the columns stay in line");
    assert.equal(table.length, 42);
    // Pin 17 is one of U10 alone.
    assert.match(table.find((line) => line.startsWith("| 17 ")) ?? "", /\| - +\| - +\| - +\|$/);
  },
};
