import { previewFrame } from "../preview-frame.js";

const LOG = "logs/2026-018-controller.md";
const ROWS = ".pane .monaco-list-row";
/** By the name of the picture: the theme, and the classes its workbench and its preview have. */
const THEMES = {
  light: ["Default Light Modern", ".vs", "vscode-light"],
  dark: ["Default Dark Modern", ".vs-dark", "vscode-dark"],
  "high-contrast": ["Default High Contrast", ".hc-black", "vscode-high-contrast"],
  "high-contrast-light": ["Default High Contrast Light", ".hc-light", "vscode-high-contrast-light"],
};
const ALL_ON = { "editor.inlayHints.enabled": "on", "editor.codeLens": true };

export default {
  title:
    "the whole bench at once: hints, lenses, both views and the preview, in light, dark, both high contrasts and a narrow window",
  gallery: true,
  timeout: 360_000,
  workspace: "../../demo",
  settings: ALL_ON,
  async run(editor) {
    const { page } = editor;
    await editor.openFile(LOG);
    await editor.awake();
    await page.locator('.activitybar [aria-label^="Mendlog"]').first().click();
    await page.locator(ROWS, { hasText: "2026-018" }).first().waitFor();
    await editor.focusEditor();
    await editor.command("Markdown: Open Preview to the Side");
    await previewFrame(editor, "[class*=mendlog]");
    await page.locator(".editor-group-container").first().locator(".tab").first().click();
    await editor.goTo(editor.find(LOG, "| 3   |").line + 4);
    for (const [name, [theme, workbench, body]] of Object.entries(THEMES)) {
      editor.writeFile(".vscode/settings.json", JSON.stringify({ ...ALL_ON, "workbench.colorTheme": theme }));
      await page.waitForSelector(`.monaco-workbench${workbench}`);
      // A verdict is a shape with words to it, whatever the colours.
      await editor.until("a verdict's shape beside a reading", async () =>
        (await page.locator(".view-line").allTextContents()).some((text) =>
          /1\.42\s*▲/.test(text.replaceAll("\u00a0", " ")),
        ),
      );
      await editor.until("who is suspected", async () =>
        (await page.locator(ROWS).allTextContents()).some((text) => /U1[24]/.test(text)),
      );
      await editor.until("the verdict in the preview", async () => {
        // The preview is drawn again with the colours.
        const preview = await previewFrame(editor, "[class*=mendlog]");
        const seen = (await preview.textContent(`body.${body}`, { timeout: 1_000 }).catch(() => "")) ?? "";
        return /▲/.test(seen);
      });
      await editor.screenshot(`gallery-${name}-bench`);
    }
    // As narrow as half a small screen: the views beside the log, then the log beside its preview.
    const size = page.viewportSize();
    await page.setViewportSize({ width: 760, height: 800 });
    await editor.command("View: Close Editors in Other Groups");
    await editor.screenshot("gallery-760-views");
    await editor.command("View: Close Primary Side Bar");
    await editor.screenshot("gallery-760-log");
    await editor.command("Markdown: Open Preview");
    await previewFrame(editor, "[class*=mendlog]");
    await editor.screenshot("gallery-760-preview");
    await page.setViewportSize(size);
  },
};
