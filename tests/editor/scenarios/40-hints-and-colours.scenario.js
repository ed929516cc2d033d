import assert from "node:assert/strict";
import { colourOf, lineText } from "../marks.js";

const LOG = "logs/2026-018-controller.md";
const ON = { "editor.inlayHints.enabled": "on" };
const SETTINGS = ".vscode/settings.json";

export default {
  title: "hints name pins, nets and verdicts, and readings are coloured by their verdict",
  workspace: "../../demo",
  settings: ON,
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    const { line } = editor.find(LOG, "| U10 | 2   | 0.559");
    await editor.goTo(line);
    const shows = (near, pattern) =>
      editor.until(`${pattern} on the line of "${near}"`, async () =>
        pattern.test(await lineText(editor, near)),
      );
    await shows("row 1 into the 6821", /U10 \| 2 +PA0 · ROW_1 +\| 0\.559 +○/);
    await shows("column 3, second time", /1\.418 +▲/);
    await editor.screenshot("hints-light");

    const within = await colourOf(editor, "0.559");
    const out = await colourOf(editor, "1.418");
    const plain = await colourOf(editor, "lead slipped");
    assert.notEqual(within, out);
    assert.notEqual(within, plain);
    assert.notEqual(out, plain);

    // Each kind goes by itself.
    editor.writeFile(SETTINGS, JSON.stringify({ ...ON, "mendlog.inlayHints.verdicts": "doubtful" }));
    await editor.until("marks of doubt only", async () => {
      const text = await editor.editorText();
      return text.includes("▲") && !text.includes("○");
    });
    editor.writeFile(SETTINGS, JSON.stringify({ ...ON, "mendlog.inlayHints.pins": false }));
    await editor.until("no names of pins", async () => {
      const text = await editor.editorText();
      return text.includes("○") && !text.includes("PA0 · ROW_1");
    });
  },
};
