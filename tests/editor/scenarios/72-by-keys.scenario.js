import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { previewFrame } from "../preview-frame.js";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const LOG = "logs/2026-018-controller.md";

export default {
  title: "the palette offers what applies, the views are walked by keys, and the preview reads well aloud",
  workspace: "../../demo",
  settings: {},
  async run(editor) {
    const { page } = editor;
    const offered = async (has, typed = "") => {
      await editor.quickInput(`>Mendlog: ${typed}`);
      await editor.until(`${has} in the palette`, async () =>
        (await editor.quickRows()).some((row) => row.includes(has)),
      );
      const rows = (await editor.quickRows()).filter((row) => row.startsWith("Mendlog: "));
      return rows.join("\n");
    };

    await editor.openFile(LOG);
    await editor.awake();
    // The list draws only the rows that it has room for.
    await offered("Write the owner's report", "Write");
    await editor.press("Escape");
    const inLog = await offered("Show the suspects");
    for (const title of ["Start a new log", "Show the suspects", "Insert a table", "Restart"])
      assert.ok(inLog.includes(title), `${title} in\n${inLog}`);
    await editor.screenshot("palette-log");
    await editor.press("Escape");

    await editor.openFile("notes.md");
    const inNotes = await offered("Start a new log");
    for (const title of ["Write the", "Insert a table", "next row", "Read the meter", "proven", "Paste"])
      assert.ok(!inNotes.includes(title), `${title} in\n${inNotes}`);
    await editor.screenshot("palette-notes");
    await editor.press("Escape");

    // By keys alone: into the view, to the suspect, to the board file.
    await editor.openFile(LOG);
    await editor.command("Mendlog: Focus on Suspects View");
    await page.locator(".pane-body .monaco-list-row", { hasText: "about" }).first().waitFor();
    await editor.keyboardIn("Suspects");
    await editor.walkTo(/^Suspect U12, about \d+ %/);
    await editor.press("ArrowRight");
    await page.locator(".pane-body .monaco-list-row", { hasText: "Speaks for it" }).first().waitFor();
    await editor.walkTo(/^Speaks for it/);
    await editor.press("ArrowDown");
    await editor.press("Enter");
    await editor.until("the cursor at the reading", async () => (await editor.cursor()).line > 1);
    await editor.command("Mendlog: Focus on Jobs View");
    await editor.keyboardIn("Jobs");
    await editor.walkTo(/^2026-018, Diagnosing/);
    await editor.press("Enter");
    await editor.until("the log", async () => (await editor.activeFile()) === "2026-018-controller.md");
    await editor.focusEditor();
    // No row lives by its icon: each says its words.
    const labels = await page.$$eval(".pane-body .monaco-list-row", (rows) =>
      rows.map((row) => row.getAttribute("aria-label") ?? ""),
    );
    assert.ok(labels.length > 5);
    for (const label of labels) assert.match(label, /\p{L}{2}/u);

    await editor.press("Control+Shift+V");
    await previewFrame(editor, ".mendlog-suspects");
    const frame = await previewFrame(editor, ".mendlog-mark");
    const found = await frame.evaluate(`${AXE}; axe.run(document.querySelector(".markdown-body")).then((it) =>
      it.violations.filter(({ impact }) => impact === "serious" || impact === "critical").flatMap(({ id, nodes }) =>
        nodes.map(({ html, target }) => ({ id, html: html.slice(0, 200), ours: target.some((at) =>
          document.querySelector(at)?.closest('[class*="mendlog"]') !== null) }))))`);
    assert.deepEqual(
      found.filter(({ ours }) => ours),
      [],
    );
    // An examination that can find nothing would prove nothing.
    const planted = await frame.evaluate(async () => {
      const bad = document.createElement("div");
      bad.innerHTML = '<img src="data:,"><p style="color:#999;background:#fff">pale</p>';
      document.querySelector(".markdown-body").append(bad);
      const { violations } = await globalThis.axe.run(bad);
      bad.remove();
      return violations.map(({ id }) => id);
    });
    assert.ok(planted.includes("image-alt"), planted.join());
  },
};
