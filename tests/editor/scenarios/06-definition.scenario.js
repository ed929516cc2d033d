import assert from "node:assert/strict";

const LOG = "logs/faulty.md";
const BOARD = "boards/sample.board.yaml";

export default {
  title: "go to definition leads from a designator to the part in the board file",
  async run(editor) {
    await editor.openFile(LOG);
    await editor.waitForProblem((it) => it.code === "diode-out-of-window");
    const place = editor.find(LOG, "U14");
    await editor.goTo(place.line, place.column + 1);
    await editor.press("F12");
    await editor.until("the board file", async () => (await editor.activeFile()) === "sample.board.yaml");
    const part = editor.find(BOARD, "U14: {");
    await editor.until("the part's line", async () => (await editor.cursor()).line === part.line);
    assert.match(await editor.editorText(), /U14: \{ device: 74LS04/);
    await editor.screenshot("definition");
  },
};
