import assert from "node:assert/strict";
import { inTheme, previewFrame, THEMES } from "../preview-frame.js";

const LOG = "logs/2026-018-controller.md";
const BAD = ".mendlog-mark.mendlog-out-of-limits";

export default {
  title: "the Markdown preview shows verdicts beside readings, chips, matrices, findings and suspects",
  workspace: "../../demo",
  settings: {},
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    await editor.press("Control+Shift+V");
    let frame = await previewFrame(editor, BAD);
    await previewFrame(editor, ".mendlog-suspects");

    const cell = await frame.$eval(BAD, (mark) => ({
      text: mark.parentElement.textContent,
      title: mark.title,
      colour: getComputedStyle(mark).color,
    }));
    assert.match(cell.text, /^\S+ ?▲ ?out of limits$/);
    assert.match(cell.title, /^Out of limits: U1[24] pin \d+/);
    // What is as it should be has a shape and, for those who do not see it, words.
    const fine = await frame.$eval(".mendlog-mark.mendlog-within-limits", (mark) => mark.textContent);
    assert.match(fine, /○.*within limits/);
    const words = await frame.$eval(".markdown-body", (body) => body.textContent);
    assert.doesNotMatch(words, /\bgood\b|\bpassed\b/i);

    const pictures = await frame.$$eval(".mendlog-picture svg", (all) =>
      all.map((svg) => ({
        title: svg.querySelector("title")?.textContent ?? "",
        width: svg.getBoundingClientRect().width,
        // A mark that refers to nothing is not drawn.
        lost: [...svg.querySelectorAll("use")].filter((use) => use.getBoundingClientRect().width === 0)
          .length,
      })),
    );
    assert.ok(
      pictures.some(({ title }) => title.startsWith("U14")),
      JSON.stringify(pictures),
    );
    assert.ok(
      pictures.some(({ title }) => /matrix|switch/i.test(title)),
      JSON.stringify(pictures),
    );
    for (const { width, lost, title } of pictures)
      assert.ok(width > 100 && lost === 0, `${title} ${width} ${lost}`);
    assert.match(await frame.$eval(".mendlog-suspects", (it) => it.textContent), /U1[24]: about \d+ %/);

    for (const name of Object.keys(THEMES)) {
      const bodyClass = await inTheme(editor, name);
      // The page is made again when the pictures take on the colours: it is asked for until it holds still.
      const look = async (what, scroll) => {
        await editor.until(`the ${what} of the preview in ${name}`, async () => {
          frame = await previewFrame(editor, `body.${bodyClass} .mendlog-mark, .${bodyClass} .mendlog-mark`);
          return frame.evaluate(scroll).then(
            () => true,
            () => false,
          );
        });
        await editor.screenshot(`preview-${name}-${what}`);
      };
      await look("top", () => document.querySelector(".mendlog-top").scrollIntoView());
      await look("chips", () =>
        document.querySelector(".mendlog-picture").scrollIntoView({ block: "center" }),
      );
      await look("last", () =>
        [...document.querySelectorAll(".mendlog-picture")].at(-1).scrollIntoView({ block: "center" }),
      );
    }
  },
};
