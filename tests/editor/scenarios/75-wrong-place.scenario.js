import assert from "node:assert/strict";
import {
  AS_EVER,
  assertNoFault,
  eachSays,
  NEEDS_MORE,
  NO_LOG,
  NO_LOG_OR_BOARD,
  QUIET_COMMANDS,
} from "../every-command.js";
import { previewFrame } from "../preview-frame.js";

const LOG = "logs/faulty.md";
const SETTINGS = ".vscode/settings.json";
const BOARD = "boards/sample.board.yaml";
const FILES = [LOG, "notes.md", BOARD, "empty.md"];

export default {
  title: "commands run by a key of one's own where they do not apply say what is wanted and change nothing",
  files: { "empty.md": "" },
  settings: {},
  // Every command in seven places: over 150 s where the machine is shared.
  timeout: 400_000,
  async run(editor) {
    const { page } = editor;
    await editor.openFile(LOG);
    await editor.awake();
    const before = FILES.map(editor.readFile);
    const dirty = () => page.locator(".tab.dirty").count();

    const refused = async (where) => {
      await eachSays(editor, where === BOARD ? NO_LOG : { ...NO_LOG, ...NO_LOG_OR_BOARD }, where);
      for (const id of QUIET_COMMANDS) await editor.byKey(id);
      assert.deepEqual(await editor.notifications(), [], `quiet commands in ${where}`);
      assert.equal(await dirty(), 0, `nothing changed in ${where}`);
    };

    for (const name of ["notes.md", BOARD, SETTINGS, "empty.md"]) {
      await editor.openFile(name);
      await refused(name);
    }
    await editor.byKey("mendlog.refreshSuspects");
    await editor.told("no log to suspect in", /Open a repair log to see its suspects/);

    // A board has a bench sheet too: where to put it is asked, and Escape leaves all as it was.
    await editor.openFile(BOARD);
    await editor.byKey("mendlog.writeSheet");
    const input = page.locator(".quick-input-widget input.input").first();
    await editor.until("the save dialog", async () =>
      (await input.inputValue().catch(() => "")).endsWith("/boards/sample-sheet.html"),
    );
    await editor.press("Escape");
    await page.waitForSelector(".quick-input-widget", { state: "hidden" });
    await editor.openFile("empty.md");

    // The keys of a table do here what they always do, in a file without a line as well.
    for (const [id, typed] of [
      ["mendlog.nextRow", { line: 2, column: 1 }],
      ["mendlog.nextCell", { line: 2, column: 5 }],
      ["mendlog.previousCell", { line: 2, column: 1 }],
    ]) {
      await editor.byKey(id);
      await editor.cursorAt(typed.line, typed.column);
    }
    await editor.command("File: Revert File");
    await editor.until("the empty file as it was", async () => (await dirty()) === 0);

    // At several cursors and on a selection as well, in the middle of a table.
    await editor.openFile(LOG);
    const cell = editor.find(LOG, "1.42");
    await editor.select(cell.line, cell.column, 4);
    await editor.byKey("mendlog.nextRow");
    await editor.cursorAt(cell.line + 1, 1);
    await editor.press("Control+Z");
    await editor.goTo(cell.line, cell.column);
    await editor.command("Add Cursor Below");
    await editor.byKey("mendlog.nextCell");
    await editor.until("both lines moved on", async () => {
      const text = await editor.editorText();
      return /\| 2 {3}\| {2,}1\.42/.test(text) && /\| 3 {3}\| {2,}0\.57/.test(text);
    });
    await editor.screenshot("wrong-place-two-cursors");
    await editor.press("Control+Z");
    await editor.press("Escape");
    await editor.save();

    // In front is the log's preview, nothing at all, an output channel.
    await editor.command("Markdown: Open Preview");
    await previewFrame(editor);
    // A press of a key inside of the page that shows it is not always answered.
    await editor.command("View: Show Explorer");
    await refused("a preview");
    await editor.screenshot("wrong-place-preview");
    await editor.command("View: Close All Editors");
    await editor.until("no editor", async () => (await page.locator(".tab").count()) === 0);
    await refused("no editor");
    await editor.byKey("mendlog.showServerLog");
    await page.waitForSelector(".output-view .view-line, .output .view-line");
    await refused("an output channel");
    for (const id of AS_EVER) await editor.byKey(id);
    assert.deepEqual(await editor.notifications(), []);
    await editor.screenshot("wrong-place-output");

    await eachSays(editor, NEEDS_MORE, "an output channel");
    await editor.byKey("mendlog.showProving");
    await editor.command("View: Close All Editors");

    // The server is started again, twice at once, with nothing in front, and serves the next log.
    await editor.byKey("mendlog.restartServer");
    await editor.byKey("mendlog.restartServer");
    await editor.openFile(LOG);
    await editor.waitForProblem((it) => it.code === "diode-out-of-window");
    assert.deepEqual(FILES.map(editor.readFile), before);
    assertNoFault(editor);
  },
};
