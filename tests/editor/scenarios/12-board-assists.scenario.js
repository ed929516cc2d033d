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

    await editor.goTo(part.line);
    await editor.press("End");
    // Nobody asks for the list: the digits of a number bring it up, and the point between a part and its pin.
    await editor.typeText("\nU31: { device: 68", { delay: 60 });
    const numbers = labels(await editor.complete({ ask: false }));
    // What the board has already, then the others from the plainest on.
    assert.deepEqual(numbers.slice(0, 5), ["6802", "6821", "6800", "6801", "6803"], numbers.join(" / "));
    await editor.acceptCompletion("6809");
    await editor.save();
    const net = editor.find(BOARD, "RESET_N: [");
    await editor.goTo(net.line);
    await editor.press("End");
    await editor.typeText("\nEXTRA: [U29.", { delay: 60 });
    // The list of parts stands there until that of the pins has come, row by row.
    const pins = await editor.until("the pins of U29", async () => {
      const rows = await editor.complete({ ask: false });
      return rows.some((row) => /^U29\.\d+ +\d[AB] input/.test(row)) && rows;
    });
    assert.ok(
      pins.every((row) => /^U29\.\d/.test(row)),
      pins.join(" / "),
    );
    await editor.screenshot("board-pins");
    await editor.press("Escape");
  },
};
