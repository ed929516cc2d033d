import assert from "node:assert/strict";
import { existsSync } from "node:fs";

const LOG = "logs/2026-004-controller.md";
const REPORT = "logs/2026-004-controller-report.html";

export default {
  title: "the owner's report is asked for in a log, saved where one says, and written over nothing unasked",
  workspace: "../../demo",
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();

    await writeReport(editor);
    await editor.until("the report on disk", async () => existsSync(`${editor.folder}/${REPORT}`));
    const page = editor.readFile(REPORT);
    assert.match(page, /^<!DOCTYPE html>/);
    assert.match(page, /Regatta controller 01873/);
    assert.doesNotMatch(page, /<script/i);
    await editor.screenshot("owner-report-written");

    // The editor's own dialog asks; the answer is no.
    editor.writeFile(REPORT, "mine");
    await writeReport(editor);
    await editor.until("the question", async () => (await asked(editor)) > 0);
    await editor.screenshot("owner-report-asks");
    await editor.press("Escape");
    await editor.until("the dialog to go", async () => (await asked(editor)) === 0);
    assert.equal(editor.readFile(REPORT), "mine");

    // A log is refused even where the person says yes.
    await writeReport(editor, LOG);
    await editor.until("the question about the log", async () => (await asked(editor)) > 0);
    const log = editor.readFile(LOG);
    await editor.press("Enter");
    await editor.until("the refusal", async () =>
      (await editor.notifications()).some((text) => /is a log, a board file/.test(text)),
    );
    assert.equal(editor.readFile(LOG), log);

    // In any other file there is nothing to report on, and nothing is offered.
    await editor.openFile("notes.md");
    await editor.quickInput(">Mendlog: ");
    await editor.until("the commands of Mendlog", async () =>
      (await editor.quickRows()).some((row) => row.startsWith("Mendlog: Restart")),
    );
    assert.deepEqual(
      (await editor.quickRows()).filter((row) => row.includes("owner's report")),
      [],
    );
  },
};

/** @param path typed over the name that is offered, where given */
async function writeReport(editor, path) {
  await editor.command("Mendlog: Write the owner's report");
  const input = editor.page.locator(".quick-input-widget input.input").first();
  await editor.until("the save dialog with a name", async () =>
    (await input.inputValue().catch(() => "")).endsWith("2026-004-controller-report.html"),
  );
  if (path !== undefined) await input.fill(`${editor.folder}/${path}`);
  await editor.press("Enter");
}

const asked = ({ page }) =>
  page.locator(".quick-input-widget", { hasText: /already exists.*overwrite/i }).count();
