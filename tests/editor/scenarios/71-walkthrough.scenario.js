import assert from "node:assert/strict";
import { inTheme, THEMES } from "../preview-frame.js";

const STEP = ".getting-started-step";
const PICTURES = ["new-log", "type", "verdict", "suspects", "board", "report", "preview", "meter"];

export default {
  title: "the walkthrough opens by the palette, shows a picture a step, and ticks a step that was done",
  workspace: "../../demo",
  settings: {},
  async run(editor) {
    const { page } = editor;
    await editor.command("Welcome: Open Walkthrough...");
    await editor.until("the list of walkthroughs", async () =>
      (await editor.quickRows()).some((row) => /repair log that checks itself/.test(row)),
    );
    await editor.typeText("repair log that checks itself");
    await editor.until("it alone", async () => /repair log/.test((await editor.quickRows())[0] ?? ""));
    await editor.press("Enter");

    await page.locator(STEP).first().waitFor();
    const titles = await page.$$eval(`${STEP} .step-title`, (all) => all.map((it) => it.textContent.trim()));
    assert.equal(titles.length, PICTURES.length, titles.join(" / "));
    assert.match(titles[0], /^Start a log/);
    assert.match(titles.at(-1), /meter/i);
    for (const name of Object.keys(THEMES)) {
      await inTheme(editor, name);
      for (const [i, picture] of PICTURES.entries()) {
        if (name !== "light" && i > 2) break;
        await page.locator(STEP).nth(i).click();
        await editor.until(`step ${picture} unfolded`, async () =>
          /expanded/.test((await page.locator(STEP).nth(i).getAttribute("class")) ?? ""),
        );
        // The picture is a page of its own.
        await editor.until(`the picture of ${picture}`, async () => {
          for (const frame of page.frames()) {
            const title = await frame.$eval("svg > title", (it) => it.textContent).catch(() => undefined);
            if (title && (await shown(picture)).includes(title)) return true;
          }
          return false;
        });
        await editor.screenshot(`walkthrough-${name}-${picture}`);
      }
    }

    // A button does what its step is about, and the step is ticked.
    await page.locator(STEP).nth(3).click();
    await page.locator(`${STEP}.expanded .monaco-button`, { hasText: "Show the suspects" }).click();
    await page.locator(".pane-header", { hasText: "Suspects" }).first().waitFor();
    await editor.until(
      "the step ticked",
      async () =>
        (await page.locator(STEP).nth(3).locator(".codicon-getting-started-step-checked").count()) > 0,
    );
  },
};

/** The picture as it was shipped. */
async function shown(picture) {
  const { readFileSync } = await import("node:fs");
  return readFileSync(new URL(`../../../client/media/walkthrough/${picture}.svg`, import.meta.url), "utf8");
}
