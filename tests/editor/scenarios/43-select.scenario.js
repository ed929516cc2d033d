import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";

export default {
  title: "a selection grows from the word to the cell, the row, the rows and the table",
  workspace: "../../demo",
  settings: {},
  async run(editor) {
    const { page } = editor;
    const selected = async () => {
      const text = (await page.locator("#status\\.editor\\.selection").textContent()) ?? "";
      return Number(/\((\d+) selected\)/.exec(text)?.[1] ?? 0);
    };
    await editor.openFile(LOG);
    await editor.awake();
    const { line, column } = editor.find(LOG, "row 1 into the 6821");
    await editor.goTo(line, column + 7);
    const lines = editor.readFile(LOG).split("\n");
    const row = lines[line - 1].trimEnd();
    let last = line - 1;
    while (lines[last + 1].startsWith("|")) last += 1;
    const body = lines
      .slice(line - 1, last + 1)
      .join("\n")
      .trimEnd();
    const table = lines
      .slice(line - 3, last + 1)
      .join("\n")
      .trimEnd();
    const cell = row.split("|")[4];

    const steps = [4, cell.trim().length, cell.length, row.length, body.length, table.length];
    // The editor puts steps of its own between ours.
    for (const length of steps) {
      const passed = [];
      for (let now = await selected(); now !== length; ) {
        assert.ok(now < length, `${length} characters were never selected, but ${passed}`);
        passed.push(now);
        await editor.press("Shift+Alt+ArrowRight");
        const before = now;
        now = await editor.until(`more than ${before} selected`, async () => {
          const grown = await selected();
          return grown > before && grown;
        });
      }
      if (length === row.length) await editor.screenshot("select-row");
    }
    await editor.screenshot("select-table");
    await editor.press("Shift+Alt+ArrowLeft");
    await editor.until("the rows again", async () => (await selected()) === body.length);
  },
};
