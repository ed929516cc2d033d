import assert from "node:assert/strict";

const LOG = "logs/2026-022-controller.md";
const TEXT = `---
mendlog: 1
job: 2026-022
board: regatta-controller
serial: "01873"
received: 2026-03-18
stage: proving
comeback-of: 2026-040
---

# Regatta controller 01873, back again

It was quiet for a while.

## Proving

| Item       | Result |
|------------|--------|
| Every lamp | failed |
`;

export default {
  title:
    "a comeback leads to the earlier job by hover, fix and definition; the line below goes to the proving table",
  workspace: "../../demo",
  files: { [LOG]: TEXT },
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();

    // The wrong number is told, and the fix writes the right one.
    editor.filterProblems("comeback-unknown");
    const wrong = await editor.waitForProblem((it) => it.code === "comeback-unknown");
    assert.match(
      wrong.message,
      /No log in this workspace has the job number 2026-040.*Did you mean 2026-004\?/,
    );
    await editor.goTo(wrong.line, wrong.column);
    await editor.quickFix("2026-004");
    await editor.until("the right number", async () =>
      /comeback-of: 2026-004/.test(await editor.editorText()),
    );
    await editor.save();

    const hover = await editor.hoverWord("2026-004", { line: wrong.line, says: /Job 2026-004/ });
    assert.match(hover, /returned: 2026-02-13/);
    assert.match(hover, /What was done then/);
    await editor.screenshot("comeback-hover");
    await editor.press("Escape");

    // The line below the editor tells what failed; a click goes to the table.
    const status = editor.page.locator('.statusbar-item[id*="mendlog"]', { hasText: /Proving, 1 failed/ });
    await status.waitFor({ timeout: 15_000 });
    await editor.screenshot("status-line");
    await status.click();
    const proving = editor.find(LOG, "## Proving").line;
    await editor.until("the cursor at the proving table", async () => {
      const { line } = await editor.cursor();
      return line >= proving && line <= proving + 2;
    });

    await editor.goTo(wrong.line, wrong.column + 2);
    await editor.press("F12");
    await editor.until(
      "the earlier log",
      async () => (await editor.activeFile()) === "2026-004-controller.md",
    );
  },
};
