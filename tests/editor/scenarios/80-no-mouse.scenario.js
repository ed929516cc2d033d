import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";
const MENU = ".context-view .action-menu-item, .shadow-root-host";
const HOVER = ".monaco-hover:not(.hidden) .hover-contents";

export default {
  title:
    "without a mouse: views, evidence, a job's menu, a hover, the next finding, and what is said of each row",
  workspace: "../../demo",
  settings: {},
  async run(editor) {
    const { page } = editor;
    await editor.openFile(LOG);
    await editor.awake();
    // The very first time: the rows are still to come when the view takes the keyboard.
    await editor.command("Mendlog: Focus on Suspects View");
    await page.locator(".pane-body .monaco-list-row", { hasText: "about" }).first().waitFor();
    await editor.keyboardIn("Suspects");
    await editor.press("ArrowDown");
    await editor.until("the first row", async () => /next, about/.test(await editor.focusedRow()));
    await editor.walkTo(/^Suspect U12, about \d+ %\. 74145/);
    await editor.press("ArrowRight");
    await page.locator(".pane-body .monaco-list-row", { hasText: "Speaks for it" }).first().waitFor();
    await editor.walkTo(/^Speaks for it/);
    const evidence = await editor.walkTo(/U12 pin 3 .* Goes to line \d+\.$/);
    await editor.screenshot("no-mouse-suspects");
    await editor.press("Enter");
    const line = Number(/line (\d+)/.exec(evidence)[1]);
    await editor.until("the reading", async () => (await editor.cursor()).line === line);

    await editor.command("Mendlog: Focus on Jobs View");
    await editor.keyboardIn("Jobs");
    await editor.walkTo(/^2026-018, Diagnosing, .*days, old, .*failed/);
    await editor.press("Shift+F10");
    await page.locator(MENU).first().waitFor();
    await editor.press("ArrowDown");
    await editor.screenshot("no-mouse-menu");
    await editor.press("ArrowDown");
    await editor.press("Enter");
    await editor.until("the board file", async () => (await editor.activeFile()).endsWith(".board.yaml"));

    // What a screen reader is told of every row in both views: it is one of a tree, and says more than a sign.
    const rows = await page.$$eval(".pane-body .monaco-list-row", (all) =>
      all.map((row) => ({
        tree: row.closest("[role=tree]")?.getAttribute("aria-label") ?? "",
        role: row.getAttribute("role"),
        level: Number(row.getAttribute("aria-level")),
        label: row.getAttribute("aria-label") ?? "",
        icon: row.querySelector(".custom-view-tree-node-item-icon")?.className ?? "",
      })),
    );
    assert.deepEqual([...new Set(rows.map(({ tree }) => tree))].sort(), ["Jobs", "Suspects"]);
    const WORDS = [
      [/codicon-warning/, /Caution|missing/],
      [/codicon-clock/, /\bold\b/],
      [/codicon-error/, /failed/],
      [/codicon-history/, /comeback|background/i],
      [/codicon-go-to-file/, /Goes to line|in the board file/],
      [/codicon-add/, /for/],
      [/codicon-remove/, /against/],
    ];
    for (const { role, level, label, icon } of rows) {
      assert.equal(role, "treeitem", label);
      assert.ok(level >= 1, label);
      assert.match(label, /\p{L}{2}/u);
      for (const [sign, words] of WORDS) if (sign.test(icon)) assert.match(label, words);
    }
    const buttons = await page.$$eval(".pane-header .action-label", (all) =>
      all.map((button) => button.getAttribute("aria-label") ?? ""),
    );
    assert.ok(buttons.length > 0);
    for (const label of buttons) assert.match(label, /\p{L}{3}/u);

    const place = editor.find(LOG, "1.418");
    await editor.openFile(LOG, place.line, place.column + 1);
    await editor.until("the hover", async () => {
      await editor.press("Control+K");
      await editor.press("Control+I");
      const text = await page.locator(HOVER).allTextContents();
      return /Out of limits/.test(text.join("\n"));
    });
    // Asked for again it takes the keyboard, and every picture in it has its words.
    await editor.press("Control+K");
    await editor.press("Control+I");
    await editor.until("the keyboard in the hover", () =>
      page.evaluate(() => document.activeElement?.closest(".monaco-hover") !== null),
    );
    await editor.screenshot("no-mouse-hover");
    await editor.press("Escape");
    await editor.press("F8");
    await editor.until("the next finding in words", async () =>
      /pins 1 to 14/.test(
        (await page.locator(".marker-widget .descriptioncontainer").allTextContents()).join(),
      ),
    );
    await editor.press("Escape");
  },
};
