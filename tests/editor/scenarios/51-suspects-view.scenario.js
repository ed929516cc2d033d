import assert from "node:assert/strict";
import { inTheme, THEMES } from "../preview-frame.js";

const LOG = "logs/2026-018-controller.md";
const ROWS = ".pane .monaco-list-row";

export default {
  title: "the side view lists the next reading and the suspects with their evidence, and goes to each place",
  workspace: "../../demo",
  settings: {},
  async run(editor) {
    const { page } = editor;
    const rows = () =>
      page.$$eval(ROWS, (all) =>
        all.map((row) => ({
          label: row.getAttribute("aria-label") ?? "",
          text: (row.textContent ?? "").replaceAll("\u00a0", " "),
        })),
      );
    const row = (pattern) =>
      editor.until(`a row ${pattern}`, async () => (await rows()).find(({ text }) => pattern.test(text)));
    const click = async (pattern) => {
      const { label } = await row(pattern);
      await page.locator(ROWS).filter({ hasText: pattern }).first().click();
      return label;
    };

    await editor.openFile("notes.md");
    await page.locator('.activitybar [aria-label^="Mendlog"]').first().click();
    const welcome = page.locator(".welcome-view-content", { hasText: "Open a repair log" });
    await welcome.waitFor();
    await editor.screenshot("suspects-view-welcome");

    await editor.openFile(LOG);
    const next = await row(/^Read U14 pin 7 again.*pressing the chip/);
    assert.match(next.label, /^Read U14 pin 7 again.*next, about \d+ (s|min)/);
    const suspect = await row(/^about \d+ %: U12/);
    assert.match(suspect.label, /^Suspect U12, about \d+ %\. 74145/);
    await editor.screenshot("suspects-view");

    // Unfolded, a suspect shows its evidence. The board file says what U12 is; the view stays with the log.
    await click(/^about \d+ %: U12/);
    await row(/Speaks for it: \d/);
    await click(/^U12 in the board file/);
    await editor.until("the board file", async () => (await editor.activeFile()).endsWith(".board.yaml"));
    // A piece of evidence goes to the reading it is about.
    const evidence = await click(/^U12 pin 3 reads/);
    assert.match(evidence, /U12 pin 3/);
    await editor.until("the log again", async () => (await editor.activeFile()) === LOG.split("/").at(-1));
    // It was read three times; any of them is the reading it is about.
    await editor.until("its row", async () => {
      const { line } = await editor.cursor();
      return /^\|(?: U12 +\|)? 3 +\| 1\.4/.test(editor.readFile(LOG).split("\n")[line - 1]);
    });
    for (const name of Object.keys(THEMES)) {
      await inTheme(editor, name);
      await editor.screenshot(`suspects-view-${name}`);
    }

    // The pencil above the view writes them into the log.
    await page
      .locator(".pane, .composite.title")
      .locator('[aria-label^="Write the suspects"]')
      .first()
      .click();
    await editor.changed();
    await editor.save();
    assert.match(editor.readFile(LOG), /\n## Suspects\n/);

    // What is typed tells: with the reading of U12 within limits somebody else is suspected.
    const place = editor.find(LOG, "1.42");
    await editor.select(place.line, place.column, 4);
    await editor.typeText("0.58");
    await editor.until("other shares", async () => {
      const now = (await rows()).find(({ text }) => /^about \d+ %: U12/.test(text));
      return !now || now.label !== suspect.label;
    });
  },
};
