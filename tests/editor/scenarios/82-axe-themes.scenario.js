import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { previewFrame } from "../preview-frame.js";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const LOG = "logs/2026-018-controller.md";
/** By name: the theme, the class of its workbench, and that of its preview. */
const THEMES = {
  light: ["Default Light Modern", ".vs", "vscode-light"],
  dark: ["Default Dark Modern", ".vs-dark", "vscode-dark"],
  "high-contrast": ["Default High Contrast", ".hc-black", "vscode-high-contrast"],
  "high-contrast-light": ["Default High Contrast Light", ".hc-light", "vscode-high-contrast-light"],
};

/** Runs in the page: what is wrong in the parts of it that are ours, and how many contrasts were computed. */
const EXAMINE = `(async (roots, ours) => {
  const it = await axe.run({ include: roots.map((root) => [root]) }, { rules: {
    region: { enabled: false },
    // The editor sets a row's label and what stands beside it without a space between: no name could hold that.
    "label-content-name-mismatch": { enabled: false },
  } });
  const own = ({ target }) => ours === undefined || document.querySelector(target.at(-1))?.closest(ours) !== null;
  const nodes = (rules, wanted) => rules.filter(wanted).flatMap(({ id, nodes }) =>
    nodes.filter(own).map(({ html, failureSummary }) => id + ": " + html.slice(0, 220) + " " + (failureSummary ?? "").split("\\n")[1]));
  return { wrong: nodes(it.violations, () => true), contrasts: nodes(it.passes, ({ id }) => id === "color-contrast").length };
})`;

export default {
  title: "an examiner for accessibility finds nothing wrong with our preview, views and hovers in any theme",
  gallery: true,
  workspace: "../../demo",
  settings: {},
  async run(editor, { say }) {
    const { page } = editor;
    const themed = async (name) => {
      const [theme, workbench] = THEMES[name];
      editor.writeFile(".vscode/settings.json", JSON.stringify({ "workbench.colorTheme": theme }));
      await page.waitForSelector(`.monaco-workbench${workbench}`);
    };
    await editor.openFile(LOG);
    await editor.awake();
    await editor.command("Mendlog: Focus on Suspects View");
    await page.locator(".pane-body .monaco-list-row", { hasText: "about" }).first().waitFor();
    await editor.focusEditor();
    await editor.command("Markdown: Open Preview to the Side");
    await previewFrame(editor, ".mendlog-pictures svg");
    const wrong = [];
    let contrasts = 0;
    for (const name of Object.keys(THEMES)) {
      await themed(name);
      // The preview is drawn again with the colours: a page that goes while it is examined is examined again.
      const preview = await editor.until(`the preview in ${name}`, async () => {
        const frame = await previewFrame(editor, ".mendlog-pictures svg");
        const classes = await frame.evaluate(() => document.body.className).catch(() => "");
        if (!classes.split(" ").includes(THEMES[name][2])) return undefined;
        // The page itself has no ground: what is behind it in the editor is put there for the examiner to see.
        const ground = 'document.documentElement.style.background = "var(--vscode-editor-background)"';
        return frame
          .evaluate(`${AXE}; ${ground}; ${EXAMINE}([".markdown-body"], '[class*="mendlog"]')`)
          .catch(() => undefined);
      });
      wrong.push(...preview.wrong.map((it) => `preview, ${name}: ${it}`));
      contrasts += preview.contrasts;
      await editor.screenshot(`axe-${name}`);
    }
    await page.evaluate(AXE);
    for (const name of Object.keys(THEMES)) {
      await themed(name);
      const views = await page.evaluate(`${EXAMINE}([".sidebar .pane-body"])`);
      wrong.push(...views.wrong.map((it) => `views, ${name}: ${it}`));
      contrasts += views.contrasts;
    }
    for (const name of ["dark", "high-contrast-light"]) {
      await themed(name);
      await page.locator(".editor-group-container").first().locator(".tab").first().click();
      await editor.hoverWord("U14", { line: editor.find(LOG, "| Pin | U12").line, says: /74LS14/ });
      const hover = await page.evaluate(`${EXAMINE}([".monaco-hover:not(.hidden) .hover-contents"])`);
      wrong.push(...hover.wrong.map((it) => `hover, ${name}: ${it}`));
      contrasts += hover.contrasts;
      const picture = await page
        .locator(".monaco-hover:not(.hidden) .hover-contents img")
        .first()
        .getAttribute("alt");
      assert.match(picture, /^U14 74LS14, DIP-14\. .*out of limits: pins? 1/);
      await page.mouse.move(700, 950);
    }
    say(`${contrasts} contrasts of text computed`);
    assert.deepEqual(wrong, []);
    assert.ok(contrasts > 100);
  },
};
