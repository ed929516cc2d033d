import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";
const IMAGE = ".monaco-hover:not(.hidden) .hover-contents img";

export default {
  title: "hovers draw the chip with its verdicts and the matrix as a grid",
  workspace: "../../demo",
  settings: {},
  async run(editor) {
    const { page } = editor;
    await editor.openFile(LOG);
    await editor.awake();

    /** Hovers, waits for the image to be there, and gives what the editor made of it. */
    const pictureOver = async (text, near, says, name) => {
      await editor.hoverWord(text, { line: editor.find(LOG, near).line, says });
      const image = await editor.until("a drawn image", async () => {
        const [found] = await page.$$eval(IMAGE, (images) =>
          images.map(({ complete, naturalWidth, naturalHeight, clientWidth, alt, src }) => ({
            drawn: complete && naturalWidth > 0,
            naturalWidth,
            naturalHeight,
            clientWidth,
            alt,
            src: src.slice(0, 26),
          })),
        );
        return found?.drawn && found;
      });
      // A part that arrives late draws the hover again, with another image in it.
      await editor.until("the image in sight", () =>
        page
          .locator(IMAGE)
          .first()
          .scrollIntoViewIfNeeded({ timeout: 2_000 })
          .then(
            () => true,
            () => false,
          ),
      );
      await editor.screenshot(name);
      assert.equal(image.src, "data:image/svg+xml;base64,");
      assert.ok(image.naturalWidth <= 420, `${image.naturalWidth} px wide`);
      return image;
    };

    const chip = await pictureOver("U14", "| Pin | U12", /74LS14/, "picture-chip");
    assert.match(chip.alt, /U14 74LS14, DIP-14\. .*out of limits: pins? .*\b1\b/i);
    const grid = await pictureOver("dead", "| 7            | dead", /Switch matrix|row 7/i, "picture-matrix");
    assert.match(grid.alt, /8 rows by 8 columns.*dead: 15.*reserved/);
    await pictureOver("Switch matrix", "## Switch matrix", /have answered/, "picture-heading");
  },
};
