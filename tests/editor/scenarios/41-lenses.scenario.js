import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";
const SETTINGS = ".vscode/settings.json";
const ON = { "editor.codeLens": true };

export default {
  title: "lenses count a table's readings and the earlier jobs with a symptom, and show where they are",
  workspace: "../../demo",
  settings: ON,
  async run(editor) {
    const { page } = editor;
    const lenses = async () =>
      (await page.locator(".codelens-decoration").allTextContents()).map((text) =>
        text.replaceAll("\u00a0", " "),
      );
    const lens = (pattern) =>
      editor.until(`a lens that says ${pattern}`, async () =>
        (await lenses()).find((text) => pattern.test(text)),
      );

    await editor.openFile(LOG);
    await editor.awake();
    await lens(/1 earlier job with row-dead and column-dead/);
    await lens(/^5 readings: 5 within limits; 1 not measured/);
    const matrix = await lens(/^63 results: 48 ok, 15 dead; 1 not measured/);
    assert.doesNotMatch(matrix, /good|passed/i);
    await editor.screenshot("lenses");

    await editor.goTo(editor.find(LOG, "## Diode check of the neighbours").line);
    const counted = await lens(/readings: .*out of limits.*within limits/);
    assert.match(counted, /impossible/);

    // A click lists what is not within limits, in the editor's own view of places.
    const places = page.locator(".zone-widget .ref-tree .monaco-list-row");
    await editor.until("the list of places", async () => {
      // A lens that is drawn again under the mouse takes no click.
      const lens = page.locator(".codelens-decoration a", { hasText: /14 readings: / }).first();
      await lens.click({ timeout: 3_000 }).catch(() => {});
      return places
        .first()
        .waitFor({ timeout: 4_000 })
        .then(
          () => true,
          () => false,
        );
    });
    await editor.until("the readings listed", async () => {
      const rows = await places.allTextContents();
      return rows.some((row) => row.includes("1.418"));
    });
    await editor.screenshot("lenses-places");
    await editor.press("Escape");

    editor.writeFile(SETTINGS, JSON.stringify({ ...ON, "mendlog.codeLens": false }));
    await editor.until("no lens", async () => (await lenses()).length === 0);
  },
};
