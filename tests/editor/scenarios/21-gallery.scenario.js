import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";
const THEMES = { light: "Default Light Modern", dark: "Default Dark Modern" };

export default {
  title: "findings, hover, suggestions, fixes and a table insert can be told apart in light and dark",
  gallery: true,
  workspace: "../../demo",
  settings: {},
  async run(editor) {
    const { page } = editor;
    await editor.openFile(LOG);
    await editor.awake();
    const colours = {};
    for (const [name, theme] of Object.entries(THEMES)) {
      editor.writeFile(".vscode/settings.json", JSON.stringify({ "workbench.colorTheme": theme }));
      await page.waitForSelector(`.monaco-workbench.vs${name === "dark" ? "-dark" : ":not(.vs-dark)"}`);
      await editor.goTo(editor.find(LOG, "| U26 | 6").line);
      await page.waitForSelector(".squiggly-warning");
      await editor.press("Control+Shift+M");
      await page.waitForSelector(".markers-panel .marker-message");
      await editor.screenshot(`gallery-${name}-diagnostics`);
      await editor.command("View: Hide Panel");

      await editor.hoverWord("1.418", { line: editor.find(LOG, "1.418").line, says: /Limits/ });
      colours[name] = await page.evaluate(colourOf, ".monaco-hover:not(.hidden)");
      await editor.screenshot(`gallery-${name}-hover`);
      await page.mouse.move(900, 120);

      const place = editor.find(LOG, "U41");
      await editor.goTo(place.line, place.column + 1);
      assert.ok((await editor.fixes()).includes("Change to U14"));
      await editor.screenshot(`gallery-${name}-quick-fix`);
      await editor.press("Escape");

      await editor.press("Control+End");
      // The end is no table: Enter means what it does anywhere, once the editor has heard where the cursor is.
      await editor.until("no keys of a table", async () => {
        await editor.quickInput(">Mendlog: ");
        const rows = await editor.quickRows();
        await editor.press("Escape");
        return rows.length > 3 && !rows.some((row) => row.includes("Go to the next row"));
      });
      await editor.typeText("\n## ");
      await editor.complete({ ask: false });
      await editor.screenshot(`gallery-${name}-headings`);
      await editor.acceptCompletion("## Diode check");
      await editor.typeText("\n\nU14");
      await editor.complete();
      await editor.screenshot(`gallery-${name}-completion`);
      await editor.acceptCompletion("U14 readings table");
      await editor.typeText("0.118");
      await editor.until("a finding below the table's heading", async () =>
        page.evaluate(() => document.querySelector(".squiggly-warning") !== null),
      );
      await editor.screenshot(`gallery-${name}-table`);
      await editor.press("Escape");
      await editor.command("File: Revert File");
    }
    for (const [name, { text, ground }] of Object.entries(colours))
      assert.ok(contrast(text, ground) >= 4.5, `${name}: ${text} on ${ground}`);
  },
};

/** Runs in the page. */
function colourOf(selector) {
  const style = getComputedStyle(document.querySelector(selector));
  return { text: style.color, ground: style.backgroundColor };
}

/** Contrast ratio of two CSS colours (WCAG 2.1, relative luminance). */
function contrast(a, b) {
  const luminance = (colour) => {
    const [red, green, blue] = [...colour.matchAll(/[\d.]+/g)].slice(0, 3).map(([value]) => {
      const part = Number(value) / 255;
      return part <= 0.03928 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}
