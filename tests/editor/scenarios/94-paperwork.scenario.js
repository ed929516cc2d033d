import assert from "node:assert/strict";
import { existsSync } from "node:fs";
import { join } from "node:path";

const LOG = "logs/2026-011-controller.md";
const BOARD = "boards/regatta-driver.board.yaml";

export default {
  title:
    "the bill and the bench sheet are asked for by name in a log, the sheet in a board file too, and saved where one says",
  workspace: "../../demo",
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    const log = editor.readFile(LOG);

    const bill = await write(editor, "Mendlog: Write the bill", "bill");
    assert.match(bill, /<title>Bill/);
    assert.match(bill, /EUR/);
    await editor.screenshot("paperwork-bill-written");
    await editor.told("word of the bill", /The bill is written/);

    const sheet = await write(editor, "Mendlog: Write a bench sheet", "sheet");
    assert.match(sheet, /<title>Bench sheet/);
    assert.ok(sheet.search(/[Cc]aution/) < sheet.indexOf("<table"), "cautions come before the tables");
    await editor.screenshot("paperwork-sheet-written");
    await editor.told("word of the sheet", /bench sheet is written/);

    for (const page of [bill, sheet]) {
      assert.match(page, /2026-011/);
      assert.doesNotMatch(page, /<script/i);
    }
    assert.equal(editor.readFile(LOG), log);

    // A board file has a sheet of its own: every chip pin by pin, before there is any log.
    await editor.openFile(BOARD);
    const board = editor.readFile(BOARD);
    const ofBoard = await write(editor, "Mendlog: Write a bench sheet", "sheet", "boards/regatta-driver");
    await editor.screenshot("paperwork-board-sheet-written");
    await editor.told("word of the board's sheet", /bench sheet is written/);
    assert.match(ofBoard, /for a log of the board that regatta-driver\.board\.yaml describes/);
    assert.match(ofBoard, /<h2>\d+\. Diode check/);
    assert.match(ofBoard, /\+5V/);
    assert.ok(ofBoard.search(/[Cc]aution/) < ofBoard.indexOf("<table"), "cautions come first there, too");
    assert.equal(editor.readFile(BOARD), board);
    assert.equal(await editor.page.locator(".tab.dirty").count(), 0);
  },
};

/** Takes the name that the dialog offers. @returns {Promise<string>} what was written */
async function write(editor, command, ending, of = "logs/2026-011-controller") {
  const path = `${of}-${ending}.html`;
  const name = path.split("/").at(-1);
  await editor.command(command);
  const input = editor.page.locator(".quick-input-widget input.input").first();
  await editor.until(`the save dialog with ${name}`, async () =>
    (await input.inputValue().catch(() => "")).endsWith(name),
  );
  await editor.screenshot(`paperwork-${name.replace(".html", "")}-dialog`);
  await editor.press("Enter");
  await editor.until(`${name} on disk`, async () => existsSync(join(editor.folder, path)));
  return editor.readFile(path);
}
