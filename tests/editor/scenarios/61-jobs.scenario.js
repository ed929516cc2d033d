import assert from "node:assert/strict";

const ROWS = ".pane-body .monaco-list-row";
const FACTS = "2026-018-controller.md";

export default {
  title:
    "the Jobs view shows every log by stage with its age and what is open, follows a save, and opens a log",
  workspace: "../../demo",
  files: { "logs/broken.md": "---\nmendlog: 1\njob: B-1\nstage: nowhere\nowner: [x\n---\n\n# Broken\n" },
  settings: { "mendlog.jobs.oldAfterDays": 60 },
  async run(editor) {
    await editor.openFile(`logs/${FACTS}`);
    await editor.awake();
    await editor.command("View: Show Mendlog").catch(() => editor.command("Mendlog: Focus on Jobs View"));
    const rows = async () =>
      editor.page.$$eval(ROWS, (nodes) => nodes.map((node) => node.getAttribute("aria-label") ?? ""));
    const row = (what) =>
      editor.until(`a row ${what}`, async () => (await rows()).find((text) => what.test(text)));

    await row(/^Diagnosing, 1 job/);
    await row(/^Stage missing or not readable, 1 job/);
    const job = await row(/^2026-018, Diagnosing.*unproven/);
    assert.match(job, /days, old,/);
    assert.match(job, /Regatta controller/);
    await row(/^2026-021, Received,.* comeback/);
    assert.match(job, /1 to order/);
    await row(/^2026-016, Waiting for parts.*9 unproven/);
    await row(/^Returned, 2 jobs/);
    await editor.screenshot("jobs-view");

    // What is typed counts at once, though it is not saved.
    const stage = editor.find(`logs/${FACTS}`, "diagnosing");
    await editor.focusEditor();
    await editor.select(stage.line, stage.column, "diagnosing".length);
    await editor.typeText("repairing");
    await row(/^Repairing, 2 jobs/);
    await row(/^2026-018, Repairing/);

    // A click opens the log, the menu its board.
    await editor.page.locator(ROWS, { hasText: "2026-016" }).first().click();
    await editor.until(
      "the log in front",
      async () => (await editor.activeFile()) === "2026-016-controller.md",
    );
    const item = editor.page.locator(".context-view .action-label", { hasText: "Open the board file" });
    const menu = async () => {
      await editor.page.locator(ROWS, { hasText: "2026-016" }).first().click({ button: "right" });
      await item.hover();
    };
    await menu();
    await editor.screenshot("jobs-menu");
    await editor.until("the board in front", async () => {
      // A menu closes when what is under it is drawn again.
      if (!(await item.isVisible())) await menu();
      await item.click({ timeout: 2_000 }).catch(() => {});
      await editor.page.waitForTimeout(500);
      return (await editor.activeFile()) === "regatta-controller.board.yaml";
    });
  },
};
