import assert from "node:assert/strict";

const BOARD = "boards/regatta-driver.board.yaml";
const LOG = "logs/2026-013-driver.md";

export default {
  title: "a limit changed in the board file is applied to the logs at once, before it is saved",
  workspace: "../../demo",
  async run(editor) {
    editor.filterProblems("+5V reads 4.61");
    const low = await editor.waitForProblem((it) => it.file === LOG && it.code === "rail-out-of-tolerance");
    assert.match(low.message, /4\.8 V to 5\.2 V/);
    await editor.openFile(BOARD);
    const rail = editor.find(BOARD, "tolerance: 4 %");
    await editor.select(rail.line, rail.column + "tolerance: ".length, 1);
    await editor.typeText("9");
    await editor.waitForNoProblem((it) => it.file === LOG);
    await editor.press("Backspace");
    await editor.typeText("4");
    await editor.waitForProblem((it) => it.file === LOG);
  },
};
