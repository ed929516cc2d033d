import assert from "node:assert/strict";
import { colourOf } from "../marks.js";

const LOG = "logs/2026-018-controller.md";
const BOARD = "boards/regatta-controller.board.yaml";
const NAMED = ".cdr.wordHighlight";
const DONE = ".cdr.wordHighlightStrong";

export default {
  title: "a part, a pin and a net under the cursor are boxed wherever else the log has them",
  workspace: "../../demo",
  settings: {},
  async run(editor) {
    const { page } = editor;
    const boxes = async (selector) =>
      page.$$eval(selector, (found) => new Set(found.map((box) => box.getBoundingClientRect().top)).size);
    const boxed = (what, least) =>
      editor.until(what, async () => {
        const seen = { named: await boxes(NAMED), done: await boxes(DONE) };
        return seen.named >= least.named && seen.done >= least.done && seen;
      });

    await editor.openFile(LOG);
    await editor.awake();
    const row = editor.find(LOG, "| U12 | 3   | 1.418");
    await editor.goTo(row.line, row.column + 3);
    // The heading of the wide table's column, the sentence below it and the two rows.
    const part = await boxed("U12 boxed", { named: 4, done: 0 });
    await editor.screenshot("highlight-part");

    await editor.goTo(row.line, row.column + 8);
    const pin = await boxed("pin 3 of U12 boxed", { named: 3, done: 3 });
    assert.notDeepEqual(part, pin);
    await editor.screenshot("highlight-pin");

    // What names nothing has no boxes but those of the same word, which the editor draws by itself.
    const { line, column } = editor.find(LOG, "Readings below");
    await editor.goTo(line, column + 12);
    await editor.until("no boxes", async () => (await boxes(NAMED)) === 0 && (await boxes(DONE)) === 0);

    // In the board file the entry itself stands out from where it is used.
    const net = editor.find(BOARD, "  ROW_1: [");
    await editor.openFile(BOARD, net.line, net.column + 4);
    await editor.until("the net's entry boxed", async () => (await boxes(DONE)) === 1);
    const used = await colourOf(editor, "U10");
    assert.notEqual(used, await colourOf(editor, "ROW_2"), "designators and nets are told apart");
    await editor.screenshot("highlight-board");
  },
};
