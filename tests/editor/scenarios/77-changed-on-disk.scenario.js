import assert from "node:assert/strict";
import { existsSync, unlinkSync } from "node:fs";
import { assertNoFault } from "../every-command.js";

const LOG = "logs/changed.md";
const REPORT = "logs/changed-report.md";
const TEXT = `---
mendlog: 1
job: T-060
board: sample
received: 2026-03-02
stage: diagnosing
---

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
| U14 | 2   | 1.42    |
| U14 | 4   | O.58    |
`;
// Longer by a line: the editor takes a file of the same size for the one it knows, whatever is in it.
const ELSEWHERE = TEXT.replace("T-060", "T-061\nowner: C. Sample");

export default {
  title: "a log changed or deleted on disk while it is open: what is typed and what is on disk both stay",
  files: { [LOG]: TEXT },
  async run(editor) {
    const { page } = editor;
    const input = page.locator(".quick-input-widget input.input").first();
    const shows = (words) =>
      editor.until(`${words} in the log`, async () => words.test(await editor.editorText()));
    const dirty = () => page.locator(".tab.active.dirty").count();
    await editor.openFile(LOG);
    await editor.awake();

    // Nothing typed: the editor takes what is on disk, and the findings follow.
    await page.waitForSelector(".squiggly-error");
    editor.writeFile(LOG, TEXT.replace("O.58", "0.58"));
    await page.waitForSelector(".squiggly-error", { state: "detached" });
    editor.writeFile(LOG, TEXT);
    await page.waitForSelector(".squiggly-error");
    assert.equal(await dirty(), 0);

    // Typed in, then changed on disk: what writes writes into the editor, and the disk keeps its own.
    const cell = editor.find(LOG, "1.42");
    await editor.goTo(cell.line, cell.column + 4);
    await editor.typeText("1");
    editor.writeFile(LOG, ELSEWHERE);
    await editor.byKey("mendlog.writeSuspects");
    await shows(/## Suspects/);
    await editor.goTo(cell.line + 1, cell.column + 1);
    await editor.quickFix("Change to 0.58");
    await shows(/\| 0\.58 +\|\n.*\| 1\.421 +\|\n.*\| 0\.58 /);
    await editor.press("Control+Shift+I");
    await editor.press("Control+End");
    await editor.byKey("mendlog.insertTable");
    await editor.until("the tables to choose from", async () =>
      (await editor.listed()).some((row) => row.startsWith("Supply rails")),
    );
    await editor.press("Enter");
    await shows(/## Resistance to ground/);
    // The report is of what is in the editor.
    await editor.byKey("mendlog.writeReport");
    await editor.until("the save dialog", async () =>
      (await input.inputValue().catch(() => "")).endsWith("-report.html"),
    );
    await input.fill(`${editor.folder}/${REPORT}`);
    await editor.press("Enter");
    await editor.told("the report written", /owner's report is written/);
    assert.match(editor.readFile(REPORT), /1\.421/);
    assert.match(editor.readFile(REPORT), /T-060/);

    await editor.press("Control+1");
    await editor.press("Control+S");
    await editor.until("the editor's own question", async () =>
      (await editor.notifications()).some((text) => /content of the file is newer/i.test(text)),
    );
    await editor.screenshot("changed-on-disk");
    assert.equal(editor.readFile(LOG), ELSEWHERE);
    assert.equal(await dirty(), 1);

    // Beside it its own state on disk, which nothing can be written into.
    await editor.clearNotifications();
    await editor.command("File: Compare Active File with Saved");
    await page.waitForSelector(".diff-editor .original .view-line, .monaco-diff-editor .view-line");
    await editor.screenshot("changed-on-disk-compared");
    await editor.command("View: Close Editor");

    // Taken back and closed, the disk's own is what there is.
    await editor.openFile(LOG);
    await editor.command("File: Revert File");
    await shows(/job: T-061/);
    assert.equal(await dirty(), 0);
    assert.doesNotMatch(await editor.editorText(), /Suspects|1\.421/);
    assert.equal(editor.readFile(LOG), ELSEWHERE);

    // Deleted while open: the text stays in the editor, is worked on, and saving brings it back.
    unlinkSync(`${editor.folder}/${LOG}`);
    await page.waitForSelector(
      '.tab.active .tab-label[aria-label*="eleted"], .tab.active .tab-label.strikethrough',
    );
    await editor.byKey("mendlog.writeSuspects");
    await shows(/## Suspects/);
    await editor.goTo(cell.line, cell.column);
    await editor.byKey("mendlog.nextRow");
    await editor.cursorAt(cell.line + 1, cell.column + 4);
    assert.equal(existsSync(`${editor.folder}/${LOG}`), false);
    await editor.screenshot("deleted-on-disk");
    await editor.save();
    assert.match(editor.readFile(LOG), /job: T-061[\s\S]*## Suspects/);
    assert.deepEqual(await editor.notifications(), []);
    assertNoFault(editor);
  },
};
