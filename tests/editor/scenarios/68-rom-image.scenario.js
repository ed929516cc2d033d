import assert from "node:assert/strict";

const LOG = "logs/2026-016-controller.md";
const IMAGE = "../roms/2026-016-u2.bin";

export default {
  title: "an image cell offers the workspace's images; over a path stand its figures and the release it is",
  workspace: "../../demo",
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    const slip = await editor.until("the slip", async () =>
      (await editor.problems()).find(({ file, code }) => file === LOG && code === "rom-image-differs"),
    );
    assert.match(slip.message, /cfa0bb0f.*cfa0b0bf/);

    const { line } = editor.find(LOG, IMAGE);
    const told = await editor.hoverWord("u2", { line, says: /2048 bytes/ });
    assert.match(told, /cfa0b0bf/);
    assert.match(told, /regatta-1 \(First release, revision A\)/);
    await editor.screenshot("rom-image-hover");

    await editor.goTo(editor.find(LOG, "| U3  | ").line);
    await editor.press("End");
    await editor.typeText("\n| U2 | | | | ");
    const rows = await editor.complete();
    // The editor's own Markdown snippets may stand below it.
    assert.ok(rows[0].startsWith(IMAGE), rows[0]);
    await editor.screenshot("rom-image-complete");
    await editor.acceptCompletion(IMAGE);
  },
};
