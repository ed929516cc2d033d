import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { inTheme } from "../preview-frame.js";

const STEP = ".getting-started-step";
const STEPS = ["newLog", "type", "verdict", "suspects", "board", "report", "preview", "meter"];
const TEXTS = JSON.parse(readFileSync(new URL("../../../package.nls.de.json", import.meta.url), "utf8"));

export default {
  title: "the walkthrough, its pictures and both views in a German editor, in the dark",
  gallery: true,
  workspace: "../../demo",
  locale: "de",
  settings: {},
  async run(editor) {
    const { page } = editor;
    await inTheme(editor, "dark");
    await editor.openFile("logs/2026-018-controller.md");
    await editor.awake();
    await editor.command("Mendlog: Focus on Verdächtige View");
    await page
      .locator(".pane-body .monaco-list-row", { hasText: /^etwa \d+ %: U1/ })
      .first()
      .waitFor();
    await editor.screenshot("german-views");
    await editor.command("Welcome: Open Walkthrough...");
    await editor.typeText(TEXTS["walkthrough.title"]);
    await editor.until("it alone", async () =>
      /Reparaturprotokoll/.test((await editor.quickRows())[0] ?? ""),
    );
    await editor.press("Enter");
    await page.locator(STEP).first().waitFor();
    for (const [i, step] of STEPS.entries()) {
      await page.locator(STEP).nth(i).click();
      const picture = TEXTS[`walkthrough.${step}.picture`];
      await editor.until(`the picture of ${step} in German`, async () => {
        for (const frame of page.frames()) {
          const title = await frame.$eval("svg > title", (it) => it.textContent).catch(() => undefined);
          if (title === picture) return true;
        }
        return false;
      });
      await editor.screenshot(`german-walkthrough-${step}`);
    }
    assert.equal(await page.locator(STEP).count(), STEPS.length);
  },
};
