import assert from "node:assert/strict";

const LOG = "logs/2026-004-controller.md";
const BOARD = "boards/regatta-controller.board.yaml";

export default {
  title: "a designator's references are shown from a log and from the board file, in every log of that board",
  workspace: "../../demo",
  async run(editor) {
    const { page } = editor;
    await editor.openFile(LOG);
    await editor.awake();
    const place = editor.find(LOG, "U14 | replaced");
    await editor.goTo(place.line, place.column + 1);
    await editor.press("Shift+F12");
    const peek = page.locator(".reference-zone-widget");
    await peek.waitFor();
    const files = async () =>
      (await peek.locator(".ref-tree .reference-file").allTextContents()).map((text) => text.trim());
    await editor.until("every file that names it", async () => {
      const found = (await files()).join(" ");
      return found.includes("regatta-controller.board.yaml") && found.includes("2026-018-controller.md");
    });
    assert.ok(!(await files()).some((name) => name.includes("driver")), "another board's logs are not shown");
    const head = (await peek.locator(".peekview-title").textContent()) ?? "";
    assert.match(head, /\(\d+\)/);
    await editor.screenshot("references-peek");
    await editor.press("Escape");

    const net = editor.find(BOARD, "U14: {");
    await editor.openFile(BOARD);
    await editor.goTo(net.line, net.column + 1);
    await editor.press("Shift+F12");
    await peek.waitFor();
    await editor.until("as many from the other side", async () =>
      ((await peek.locator(".peekview-title").textContent()) ?? "").includes(head.match(/\(\d+\)/)[0]),
    );
    await editor.screenshot("references-from-board");
  },
};
