import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";

export default {
  title: "the outline shows the job, its sections and how many readings each table has",
  workspace: "../../demo",
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    await editor.command("Explorer: Focus on Outline View");
    const rows = () =>
      editor.page.$$eval(".outline-pane .monaco-list-row", (nodes) =>
        nodes.map((node) => (node.textContent ?? "").replaceAll("\u00a0", " ").trim()),
      );
    await editor.until("the job in the outline", async () =>
      (await rows()).some((row) => row.startsWith("Job 2026-018")),
    );
    await editor.screenshot("outline");
    const seen = (await rows()).join("\n");
    assert.match(seen, /Job 2026-018\s*regatta-controller, diagnosing/);
    assert.match(seen, /Regatta controller 00942/);
    assert.match(seen, /Supply rails, unloaded/);
    assert.match(seen, /5 of 6 readings/);
  },
};
