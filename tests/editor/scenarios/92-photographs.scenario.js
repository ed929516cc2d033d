import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { picture } from "../picture.js";

const LOG = "logs/2026-031.md";
const TEXT = `---
mendlog: 1
job: 2026-031
board: sample
---

## Inspection U14

![U14 before](photos/u14-before.png)

![U14 after](photos/u14-after.png)

![U15](photos/u15.png)

`;
const BEFORE = picture([30, 110, 60], [150, 60, 30]);
const PASTED = picture([30, 110, 60], [40, 40, 40], 120, 80);
const SAVED = "logs/photos/2026-031-u14-1.png";

export default {
  title:
    "photographs show over their links, a missing one is told, a pasted one is saved beside the log and linked",
  files: {
    [LOG]: TEXT,
    "logs/photos/u14-before.png": BEFORE,
    "logs/photos/u14-after.png": picture([40, 130, 70], [40, 40, 40]),
  },
  async run(editor) {
    const { page } = editor;
    await editor.openFile(LOG);
    await editor.awake();
    editor.filterProblems("photo-not-there");
    const gone = await editor.waitForProblem((it) => it.file === LOG && it.code === "photo-not-there");
    assert.equal(gone.line, editor.find(LOG, "![U15]").line);
    assert.match(gone.message, /There is no file "photos\/u15\.png"/);
    await editor.command("View: Toggle Panel Visibility");

    await editor.hoverWord("before", {
      line: editor.find(LOG, "![U14 before]").line,
      says: /Before and after/,
    });
    // Both have come and are drawn, not only named.
    const drawn = () =>
      page.$$eval(".monaco-hover:not(.hidden) img", (all) =>
        all.map(({ complete, naturalWidth, width }) => ({ ok: complete && naturalWidth > 0, width })),
      );
    await editor.until("two pictures in the hover", async () => {
      const all = await drawn();
      return all.length === 2 && all.every(({ ok, width }) => ok && width > 50);
    });
    await editor.screenshot("photographs-hover");

    await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    const last = TEXT.split("\n").length;
    await editor.goTo(last);
    await page.evaluate(async (base64) => {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      const blob = new Blob([bytes], { type: "image/png" });
      await navigator.clipboard.write([new ClipboardItem({ "image/png": blob })]);
    }, PASTED.toString("base64"));
    await editor.press("Control+V");
    await editor.until("the link", async () => (await editor.editorText()).includes("](photos/2026-031"));
    await editor.screenshot("photographs-pasted");
    await editor.press("Escape");
    await editor.save();
    const [, path] = /\]\((photos\/2026-031[^)]*\.png)\)/.exec(editor.readFile(LOG)) ?? [];
    assert.ok(path, editor.readFile(LOG));
    assert.equal(`logs/${path}`, SAVED);
    const isPng =
      readFileSync(join(editor.folder, "logs", path))
        .subarray(1, 4)
        .toString() === "PNG";
    assert.ok(isPng, "what was saved is the picture");
    await editor.hoverWord("photos/2026-031", { says: /\d kB/ });
    await editor.until("the picture that was pasted", async () => (await drawn()).some(({ ok }) => ok));
    await editor.screenshot("photographs-pasted-hover");
    // It is there, so nothing is said of it.
    const told = (await editor.problems()).filter((it) => it.code === "photo-not-there");
    assert.equal(told.length, 1);
  },
};
