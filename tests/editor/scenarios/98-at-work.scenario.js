import assert from "node:assert/strict";
import { copyFileSync, mkdirSync, statSync } from "node:fs";
import { dirname, join } from "node:path";

const LOG = "logs/2026-018-controller.md";
/** Small enough to be read where the README is, and to be looked at by everybody who opens it. */
const SIZE = { width: 1120, height: 700 };
const MOST_BYTES = 200_000;
const PICTURE = "docs/pictures/at-work.png";

/** Makes the README's picture: `UPDATE_PICTURE=1 node tests/editor/run.js 98` puts it in its place. */
export default {
  title: "the picture of the README: a log at work with verdicts, a finding explained, and the suspects",
  gallery: true,
  workspace: "../../demo",
  settings: {
    "editor.inlayHints.enabled": "on",
    "workbench.layoutControl.enabled": false,
    "window.commandCenter": false,
    "breadcrumbs.enabled": false,
    "editor.stickyScroll.enabled": false,
    "editor.fontSize": 13,
    "editor.hover.above": false,
  },
  async run(editor, { repository, say }) {
    const { page } = editor;
    await page.setViewportSize(SIZE);
    await editor.openFile(LOG);
    await editor.awake();
    await editor.command("Mendlog: Show the suspects");
    await editor.until("the suspects", async () =>
      (await page.$$eval(".pane .monaco-list-row", (rows) => rows.map((row) => row.textContent ?? ""))).some(
        (row) => /: U12/.test(row),
      ),
    );
    const place = editor.find(LOG, "1.42 ");
    await editor.goTo(place.line);
    const said = await editor.hoverWord("1.42", { line: place.line, says: /Limits/ });
    assert.match(said, /1\.42/);
    const path = await editor.screenshot("at-work");
    const { size } = statSync(path);
    say(`${size} bytes`);
    assert.ok(size < MOST_BYTES, `${size} bytes`);
    const picture = join(repository, PICTURE);
    if (process.env.UPDATE_PICTURE === "1") {
      mkdirSync(dirname(picture), { recursive: true });
      copyFileSync(path, picture);
    }
    assert.ok(statSync(picture).size < MOST_BYTES);
  },
};
