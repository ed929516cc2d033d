import assert from "node:assert/strict";
import { colourOf } from "../marks.js";

const LOG = "logs/2026-018-controller.md";
const SETTINGS = ".vscode/settings.json";
const ON = { "editor.inlayHints.enabled": "on", "editor.codeLens": true };
const THEMES = {
  dark: "Default Dark Modern",
  light: "Default Light Modern",
  "contrast-dark": "Default High Contrast",
  "contrast-light": "Default High Contrast Light",
};

/** Of two colours as the browser says them, "rgb(1, 2, 3)": the contrast ratio of WCAG 2.2, 1.4.3. */
function contrast(a, b) {
  const light = (colour) => {
    const [r, g, blue] = colour.match(/[\d.]+/g).map((part) => {
      const value = Number(part) / 255;
      return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * blue;
  };
  const [high, low] = [light(a), light(b)].sort((x, y) => y - x);
  return (high + 0.05) / (low + 0.05);
}

export default {
  title: "verdicts are told apart and readable in light, dark and high contrast themes",
  gallery: true,
  workspace: "../../demo",
  settings: ON,
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    await editor.goTo(editor.find(LOG, "U14 pin 1 is nearly").line);
    await editor.until("marks", async () => /1\.418 +▲/.test(await editor.editorText()));
    const ground = () =>
      editor.page.evaluate(
        () =>
          getComputedStyle(document.querySelector(".editor-instance .monaco-editor-background"))
            .backgroundColor,
      );
    const colours = async () => ({
      ground: await ground(),
      within: await colourOf(editor, "0.559"),
      out: await colourOf(editor, "1.418"),
      part: await colourOf(editor, "U13"),
    });
    let before = await colours();
    for (const [name, theme] of Object.entries(THEMES)) {
      editor.writeFile(SETTINGS, JSON.stringify({ ...ON, "workbench.colorTheme": theme }));
      // The ground changes first, the words follow.
      const now = await editor.until(`verdicts told apart in ${theme}`, async () => {
        const { ground: on, ...words } = await colours();
        const changed =
          on !== before.ground && Object.entries(words).every(([what, it]) => it !== before[what]);
        return changed && words.within !== words.out && { ground: on, ...words };
      });
      before = now;
      await editor.screenshot(`marks-${name}`);
      for (const what of ["within", "out", "part"]) {
        const ratio = contrast(now[what], now.ground);
        assert.ok(
          ratio >= 4.5,
          `${what} in ${theme}: ${now[what]} on ${now.ground} is ${ratio.toFixed(2)} : 1`,
        );
      }
    }
  },
};
