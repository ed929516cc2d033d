import assert from "node:assert/strict";
import { previewFrame } from "../preview-frame.js";

const LOG = "logs/2026-018-controller.md";
const ODD = "logs/odd.md";

/** No board, a table that is none, markup in a cell. */
const BROKEN = `---
mendlog: 1
board: no-such-board
---

# Odd

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 9.99    |
| U14 | 2   | <b>x</b> |

## Diode check after repair

| Ref | Pin | Reading |
|-----|-----|
| U14 | 1   | 0.58    |
`;

export default {
  title:
    "the preview beside a log follows what is typed, leads from a finding to its row, and leaves other files alone",
  workspace: "../../demo",
  files: { [ODD]: BROKEN },
  settings: {},
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    await editor.command("Markdown: Open Preview to the Side");
    let frame = await previewFrame(editor, ".mendlog-out-of-limits");
    const cell = (text) =>
      frame.$$eval(
        "td",
        (cells, wanted) => cells.map((it) => it.textContent ?? "").find((it) => it.startsWith(wanted)),
        text,
      );
    assert.match(await cell("1.42"), /out of limits/);

    const textOf = async (selector) => {
      try {
        frame = await previewFrame(editor, selector);
        return await frame.$eval(selector, (it) => it.textContent ?? "");
      } catch {
        // The editor has loaded the page again meanwhile.
        return "";
      }
    };

    await editor.focusEditor();
    const place = editor.find(LOG, "1.42");
    await editor.select(place.line, place.column, 4);
    await editor.typeText("0.587");
    await editor.until("the new reading's verdict", async () =>
      /within limits/.test((await cell("0.587")) ?? ""),
    );
    // The other readings kept theirs.
    assert.match(await cell("0.118"), /out of limits/);
    await editor.screenshot("preview-beside");

    await editor.until("the row the finding is about", async () => {
      try {
        frame = await previewFrame(editor, ".mendlog-findings");
        await frame.$eval(".mendlog-findings", (it) => {
          it.open = true;
          it.scrollIntoView();
        });
        const link = frame.locator(".mendlog-findings a").last();
        const target = (await link.getAttribute("href")).slice(1);
        await link.click({ timeout: 2_000 });
        await editor.page.waitForTimeout(400);
        return await frame.$eval(`[id="${target}"]`, (row) => {
          const { top, bottom } = row.getBoundingClientRect();
          return bottom > 0 && top < innerHeight;
        });
      } catch (error) {
        // The editor loads the page again when there is more to show.
        if (!/detached|context|Timeout/i.test(error.message)) throw error;
        return false;
      }
    });
    await editor.screenshot("preview-finding");

    await editor.focusEditor();
    await editor.openFile(ODD);
    frame = await previewFrame(editor, ".mendlog-findings");
    const findings = await editor.until("its findings", async () => {
      const text = await textOf(".mendlog-findings");
      return /no-such-board/.test(text) && text;
    });
    assert.match(await cell("9.99"), /^9\.99/);
    assert.match(findings, /row of dashes/);
    await editor.screenshot("preview-odd");

    await editor.openFile("notes.md");
    await editor.until("the notes", async () =>
      /ordinary Markdown file/.test(await textOf(".markdown-body")),
    );
    assert.equal(await frame.$$eval("[class*=mendlog], [id^=mendlog]", (all) => all.length), 0);
  },
};
