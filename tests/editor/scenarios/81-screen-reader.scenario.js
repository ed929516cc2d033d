import assert from "node:assert/strict";

const LOG = "logs/spoken.md";
const TEXT = `---
mendlog: 1
job: 2026-091
board: sample
received: 2026-03-02
stage: diagnosing
---

## Diode check

| Ref | Pin | Reading | Note |
| --- | --- | ------- | ---- |
| U14 | 1   |         |      |
| U14 | 2   |         |      |
`;
const SAID = "[id$='lastTyped']";

export default {
  title: "with a screen reader: Enter and Tab fill a table and can be given back, and each verdict is said",
  files: { [LOG]: TEXT },
  settings: {
    "editor.accessibilitySupport": "on",
    "workbench.reduceMotion": "on",
  },
  async run(editor) {
    const { page } = editor;
    const said = () =>
      page.evaluate((selector) => {
        const item = document.querySelector(selector);
        const label = item?.querySelector("a, [role]");
        return item && item.offsetParent !== null
          ? {
              role: label?.getAttribute("role"),
              label: label?.getAttribute("aria-label"),
              text: item.textContent,
            }
          : undefined;
      }, SAID);
    await editor.openFile(LOG);
    await editor.awake();
    await editor.goTo(13, 15);
    await editor.tableKeys();
    await editor.typeText("1.42");
    await editor.press("Escape");
    await editor.press("Enter");
    await editor.until("the next row", async () => (await editor.cursor()).line === 14);
    const loud = await editor.until("the verdict said", async () => {
      const now = await said();
      return now?.label?.includes("1.42") && now;
    });
    assert.equal(loud.role, "alert");
    assert.match(loud.label, /^1\.42: Out of limits\. U14 pin 1/);
    assert.match(loud.text, /▲ 1\.42: Out of limits/);
    await editor.screenshot("said-out-of-limits");

    await editor.goTo(14, 15);
    await editor.tableKeys();
    await editor.typeText("0.58");
    await editor.press("Escape");
    await editor.press("Tab");
    await editor.until(
      "the cell left",
      async () => (await editor.cursor()).line !== 14 || (await editor.cursor()).column > 20,
    );
    const calm = await editor.until("the second verdict", async () => {
      const now = await said();
      return now?.label?.includes("0.58") && now;
    });
    assert.equal(calm.role, "status");
    assert.match(calm.label, /^0\.58: Within limits\./);

    // Tab can be had back for getting out of the editor, in a table as well.
    await editor.goTo(13, 15);
    await editor.tableKeys();
    await editor.press("Control+M");
    const before = editor.readFile(LOG);
    await editor.press("Tab");
    await editor.until("the keyboard outside the editor", () =>
      page.evaluate(() => document.activeElement?.closest(".monaco-editor") === null),
    );
    assert.equal(editor.readFile(LOG), before);
    await editor.focusEditor();
    await editor.press("Control+M");

    // What the hint's sign says is there in words: the finding on the line, and the line above the table.
    await editor.goTo(13, 16);
    await editor.until("the finding in words by keys", async () => {
      await editor.press("Control+K");
      await editor.press("Control+I");
      return /Out of limits/.test(
        (await page.locator(".monaco-hover:not(.hidden) .hover-contents").allTextContents()).join(),
      );
    });
    await editor.press("Escape");

    // Twice as large on a small screen, and in a narrow window: nothing of ours is cut off.
    for (const [name, size] of Object.entries({
      twice: { width: 700, height: 500 },
      narrow: { width: 900, height: 800 },
    })) {
      await page.setViewportSize(size);
      await editor.until(`the verdict in sight, ${name}`, async () => {
        const box = await page.locator(SAID).boundingBox();
        return box && box.x >= 0 && box.x + box.width <= size.width;
      });
      await editor.command("Mendlog: Focus on Jobs View");
      await page.locator(".pane-body .monaco-list-row", { hasText: "2026-091" }).first().waitFor();
      await editor.screenshot(`said-${name}`);
      await editor.focusEditor();
    }
  },
};
