const LOG = "logs/2026-018-controller.md";
const BOARD = "boards/regatta-controller.board.yaml";

export default {
  title: "go to definition leads from a designator and from a rail to its place in the board file",
  workspace: "../../demo",
  async run(editor) {
    for (const [word, place, line] of [
      ["a designator", editor.find(LOG, "U14 | 14"), editor.find(BOARD, "U14: {").line],
      ["a rail", editor.find(LOG, "+12V |"), editor.find(BOARD, '"+12V": {').line],
    ]) {
      await editor.openFile(LOG);
      await editor.awake();
      await editor.goTo(place.line, place.column + 1);
      await editor.press("F12");
      await editor.until("the board file", async () => (await editor.activeFile()) === BOARD.split("/")[1]);
      await editor.until(`the line of ${word}`, async () => (await editor.cursor()).line === line);
    }
    await editor.until("the rail's line", async () =>
      /"\+12V": \{ nominal: 12 V/.test(await editor.editorText()),
    );
    await editor.screenshot("definition");
  },
};
