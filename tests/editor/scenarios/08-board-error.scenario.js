import assert from "node:assert/strict";

const BOARD = "boards/sample.board.yaml";

export default {
  title: "a mistake in a board file is underlined at the YAML node it is about, as it is typed",
  async run(editor) {
    await editor.openFile(BOARD);
    const place = editor.find(BOARD, "5 %");
    await editor.select(place.line, place.column, 3);
    await editor.typeText("wide");
    const found = await editor.waitForProblem((it) => it.file === BOARD && it.line === place.line);
    assert.equal(found.severity, "error");
    assert.equal(found.column, place.column);
    assert.match(found.message, /wide|tolerance/);
    await editor.screenshot("board-error");

    await editor.select(place.line, place.column, 4);
    await editor.typeText("5 %");
    await editor.waitForNoProblem((it) => it.file === BOARD);
  },
};
