import assert from "node:assert/strict";
import { inTheme, THEMES } from "../preview-frame.js";

const LOG = "logs/2026-018-controller.md";
const IMAGE = ".monaco-hover:not(.hidden) .hover-contents img";

export default {
  title: "pictures in hovers take on the colours of the editor, and change with them",
  gallery: true,
  workspace: "../../demo",
  settings: {},
  async run(editor) {
    const { page } = editor;
    await editor.openFile(LOG);
    await editor.awake();

    const pictureOver = async (text, near, says) => {
      await editor.hoverWord(text, { line: editor.find(LOG, near).line, says });
      const image = page.locator(IMAGE).first();
      await image.waitFor();
      await image.scrollIntoViewIfNeeded();
      const source = await image.getAttribute("src");
      return Buffer.from(source.split(",")[1], "base64").toString();
    };
    const panels = new Set();
    for (const name of Object.keys(THEMES)) {
      await inTheme(editor, name);
      const chip = await pictureOver("U14", "| Pin | U12", /74LS14/);
      await editor.screenshot(`hover-chip-${name}`);
      await page.mouse.move(700, 950);
      panels.add(/<rect [^>]*fill="(#\w{6})"/.exec(chip)?.[1]);
      await pictureOver("dead", "| 7            | dead", /Switch matrix|row 7/i);
      await editor.screenshot(`hover-matrix-${name}`);
      await page.mouse.move(700, 950);
    }
    assert.equal(panels.size, Object.keys(THEMES).length, [...panels].join());
  },
};
