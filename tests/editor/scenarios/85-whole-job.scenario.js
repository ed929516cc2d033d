import assert from "node:assert/strict";
import { existsSync } from "node:fs";
import { basename } from "node:path";

const BOARD = "boards/sound.board.yaml";

/** A job from the post to the post, by keys, in a folder in which nothing is described yet. */
export default {
  title:
    "a whole job: the board file from nothing, a log, a chip found, replaced and proven, the owner's report",
  workspace: null,
  files: { [BOARD]: "", "logs/readme.md": "# Our logs\n" },
  async run(editor) {
    const { press, typeText, until } = editor;
    const shows = (what, pattern) =>
      until(what, async () => pattern.test(await editor.editorText()) && (await editor.editorText()));
    const list = async (label) => {
      await editor.complete();
      await editor.acceptCompletion(label);
    };

    // The board: laid out whole, with what it is called under the cursor.
    await editor.openFile(BOARD);
    await editor.awake();
    await list("a new board");
    await shows("the board laid out", /^proving:/m);
    await typeText("sound");
    await press("Escape");
    await editor.save();
    await editor.waitForNoProblem(({ file }) => file === BOARD);

    // The log: question by question, most of them skipped.
    await editor.command("Mendlog: Start a new log");
    const box = editor.page.locator(".quick-input-widget");
    const asks = (step) =>
      until(`question ${step}`, async () => (await box.textContent())?.includes(`(${step}/3)`));
    await asks(1);
    // Enter alone would leave the board out.
    await press("ArrowDown");
    await press("Enter");
    await asks(2);
    await typeText("H. Sample");
    await press("Enter");
    await asks(3);
    await press("ArrowDown");
    await press("Enter");
    await until("the place asked for", async () =>
      /Where should the new log/.test((await box.textContent()) ?? ""),
    );
    // The folder comes first, the name a moment later.
    const log = await until("the name it is given", async () => {
      const name = basename(await box.locator("input.input").first().inputValue());
      return /^\d{4}-\d\d-\d\d-sound\.md$/.test(name) && name;
    });
    await press("Enter");
    await until("the log in front", async () => (await editor.activeFile()) === log);
    const file = `logs/${log}`;
    const line = (text) => editor.find(file, text).line;

    // Below the caution there is room: a designator becomes the table, and digits and Enter fill it.
    await editor.goTo(line("## Diode check") + 4);
    await typeText("U1");
    await list("U1 readings table");
    await shows("the table", /\| U1 +\| 7 /);
    await editor.tableKeys();
    for (const reading of ["0.581", "0.574", "0.579", "1.420", "0.571", "0.583", "0.001"]) {
      const { line: row } = await editor.cursor();
      await typeText(reading);
      await press("Enter");
      await until("the next row", async () => (await editor.cursor()).line === row + 1);
    }
    const { line: row } = await editor.cursor();
    await editor.screenshot("whole-job-table");
    assert.match(await editor.editorText(), /\| U1 +\| 7 .*\| 0\.001 /);
    await editor.save();
    assert.equal(row, line("| U1  | 8 "));
    await editor.waitForProblem(({ code }) => code === "diode-out-of-window");
    await editor.focusEditor();

    // What was done, with the day from the list; read again; proven.
    await editor.goTo(line("| Date | Ref") + 1);
    await press("End");
    await editor.tableKeys();
    await press("Enter");
    await until("the row", async () => /^\| +\| +\| +\| +\| +\|$/m.test(await editor.editorText()));
    await list("today");
    await until("the day", async () => (await editor.cursor()).column > "2026-11-25".length);
    for (const cell of ["U1", "replace", "74LS04"]) {
      const { column } = await editor.cursor();
      await press("Tab");
      const next = await until("the next cell", async () => {
        const now = await editor.cursor();
        return now.column > column && now;
      });
      await typeText(cell);
      await editor.cursorAt(next.line, next.column + cell.length);
    }
    const day = /\d{4}-\d\d-\d\d/.exec(
      (await shows("the work", /\| replace.*\| 74LS04/)).split("replace")[0].split("\n").at(-1),
    );
    assert.ok(day, "the day in the row of the work");
    await editor.save();
    // Proven, and home: what is still missing is said where the stage is set.
    const proof = editor.readFile(file).split("\n")[line("| Rails on load") - 1] ?? "";
    assert.match(proof, /Rails on load/);
    await editor.goTo(line("| Rails on load"), proof.lastIndexOf("|", proof.lastIndexOf("|") - 1) - 5);
    await typeText("ok");
    await editor.select(line("stage: received"), "stage: ".length + 1, "received".length);
    await press("Delete");
    await list("returned");
    await press("End");
    await press("Enter");
    await typeText("returned: ");
    await list("today");
    await editor.save();
    const text = editor.readFile(file);
    assert.match(text, /^stage: returned\nreturned: \d{4}-\d\d-\d\d$/m);
    await editor.waitForProblem(({ code }) => code === "replaced-not-retested");
    await editor.screenshot("whole-job-returned");
    await editor.focusEditor();

    await editor.command("Mendlog: Write the owner's report");
    const report = log.replace(".md", "-report.html");
    const input = box.locator("input.input").first();
    await until("the place for the report", async () =>
      (await input.inputValue().catch(() => "")).endsWith(report),
    );
    await press("Enter");
    await until("the report on disk", async () => existsSync(`${editor.folder}/logs/${report}`));
    const page = editor.readFile(`logs/${report}`);
    assert.match(page, /My board/);
    assert.match(page, /74LS04/);
    await editor.screenshot("whole-job-report");
  },
};
