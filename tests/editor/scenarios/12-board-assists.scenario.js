import assert from "node:assert/strict";

const BOARD = "boards/regatta-controller.board.yaml";
const labels = (rows) => rows.map((row) => row.split("  ")[0]);

export default {
  title: "a board file completes its devices, circuits and pins, and explains a device on hover",
  workspace: "../../demo",
  async run(editor) {
    await editor.openFile(BOARD);
    await editor.awake();
    const part = editor.find(BOARD, "U29: {");
    const device = await editor.hoverWord("74LS00", { line: part.line, says: /NAND/i });
    assert.match(device, /DIP-14/);
    await editor.screenshot("board-hover");

    await editor.goTo(part.line);
    await editor.press("End");
    await editor.typeText("\nU30: { device: 74LS13", { delay: 30 });
    const devices = await editor.complete();
    assert.ok(labels(devices).includes("74LS138"), devices.join(" / "));
    await editor.screenshot("board-complete");
    await editor.acceptCompletion("74LS138");
    await editor.typeText(", circuit: addr", { delay: 30 });
    const circuits = await editor.complete();
    assert.ok(labels(circuits).includes("address-decode"), circuits.join(" / "));
    await editor.acceptCompletion("address-decode");
    await editor.save();
    assert.match(
      editor.readFile(BOARD).split("\n")[part.line],
      /^ {2}U30: \{ device: 74LS138, circuit: address-decode ?\}?$/,
    );
  },
};
