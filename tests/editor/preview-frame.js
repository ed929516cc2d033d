// The Markdown preview as a person sees it: a page within a page within the editor's.

/** @param {object} editor @returns {Promise<object>} the frame that holds the rendered text, once it holds `selector` */
export const previewFrame = (editor, selector = ".markdown-body") =>
  editor.until(`a preview with ${selector}`, async () => {
    for (const frame of editor.page.frames()) {
      if ((await frame.$(".markdown-body").catch(() => null)) && (await frame.$(selector).catch(() => null)))
        return frame;
    }
    return undefined;
  });

const SETTINGS = ".vscode/settings.json";

/** The colours that are looked at: light, dark, high contrast. */
export const THEMES = {
  light: ["Default Light Modern", "vscode-light"],
  dark: ["Default Dark Modern", "vscode-dark"],
  "high-contrast": ["Default High Contrast", "vscode-high-contrast"],
};

/** Changes the editor's colours and waits until the preview has followed. */
export async function inTheme(editor, name, settings = {}) {
  const [theme, bodyClass] = THEMES[name];
  editor.writeFile(SETTINGS, JSON.stringify({ ...settings, "workbench.colorTheme": theme }));
  const workbench = { light: "vs", dark: "vs-dark", "high-contrast": "hc-black" }[name];
  await editor.page.waitForSelector(`.monaco-workbench.${workbench}`, { timeout: 15_000 });
  return bodyClass;
}
