import assert from "node:assert/strict";
import { existsSync } from "node:fs";

const LOG = "logs/script.md";
const REPORT = "logs/script-report.html";
const SHOP = `mendlog-shop: 1
name: Try
stock:
  - { part: 74LS14, quantity: -2 }
  - { part: 74LS04, quantity: 1, price: "0.50" }
  - { part: 74LS04, quantity: 3 }
`;

export default {
  title: "a stock file with faults is told of entry by entry; markup in a log stays text in the report",
  files: {
    [LOG]: `---
mendlog: 1
board: sample
owner: "<script>document.title='run'</script>"
stage: returned
---

# <img src=x onerror=alert(1)>

## Notes for the owner

Hello <b onclick="x()">you</b> <script>alert(2)</script> [press](javascript:alert(3))
`,
    "mendlog.shop.yaml": SHOP,
  },
  async run(editor) {
    await editor.openFile("mendlog.shop.yaml");
    editor.filterProblems("shop.yaml");
    for (const words of [
      /`quantity` of entry 1 of `stock` is -2; it must be at least 0/,
      /There are prices but no `currency`/,
      /`74LS04` is twice in `stock`/,
    ])
      await editor.waitForProblem((it) => words.test(it.message));
    await editor.screenshot("stock-faults");

    await editor.openFile(LOG);
    await editor.command("Mendlog: Write the owner's report");
    const input = editor.page.locator(".quick-input-widget input.input").first();
    await editor.until("the save dialog", async () => (await input.inputValue()).endsWith(REPORT));
    await editor.press("Enter");
    await editor.until("the report on disk", async () => existsSync(`${editor.folder}/${REPORT}`));
    const html = await editor.until("its text", async () => editor.readFile(REPORT));
    assert.match(html, /&lt;script&gt;document\.title/);
    assert.match(html, /script-src|default-src|<!DOCTYPE html>/);

    const page = await editor.page.context().newPage();
    try {
      const dialogs = [];
      page.on("dialog", (dialog) => {
        dialogs.push(dialog.message());
        void dialog.dismiss();
      });
      await page.setContent(html);
      const found = await page.evaluate(() => ({
        title: document.title,
        scripts: document.querySelectorAll("script").length,
        handlers: [...document.querySelectorAll("*")].filter((node) =>
          [...node.attributes].some(({ name, value }) => /^on/i.test(name) || /^\s*javascript:/i.test(value)),
        ).length,
      }));
      assert.deepEqual(
        { ...found, title: /run/.test(found.title) },
        { title: false, scripts: 0, handlers: 0 },
      );
      assert.deepEqual(dialogs, []);
      await page.screenshot({ path: `${editor.folder}/../report.png` });
    } finally {
      await page.close();
    }
  },
};
