import assert from "node:assert/strict";

export default {
  title: "the shop's numbers as a page in a tab, asked for by a key",
  workspace: "../../demo",
  settings: { "workbench.colorTheme": "Default Light Modern" },
  async run(editor, { say }) {
    const { page } = editor;
    await editor.openFile("logs/2025-087-driver.md");
    await editor.awake();
    await editor.byKey("mendlog.showNumbers");
    const shown = await editor.until("the page", async () => {
      for (const each of page.frames())
        if (await each.$('main h1:has-text("The shop\'s numbers")').catch(() => null)) return each;
      return undefined;
    });
    const jobs = await shown.textContent("dl.facts dd");
    assert.match(jobs, /^[1-9]\d*$/, "no job is counted");
    assert.equal(await shown.$$eval("script", (all) => all.length), 0, "a script is in the page");
    assert.ok((await shown.$$("table tbody tr")).length > 5, "the page has no figures");
    await editor.screenshot("shop-numbers");
    // Asked for again it is the same tab.
    await editor.byKey("mendlog.showNumbers");
    await editor.until(
      "one tab",
      async () => (await page.locator('.tab[aria-label*="shop\'s numbers"]').count()) === 1,
    );
    say(`${jobs} jobs`);
  },
};
