import assert from "node:assert/strict";

const LOG = "logs/2026-004-controller.md";
const BACK = "logs/2026-030-controller.md";
const BACK_TEXT = `---
mendlog: 1
job: 2026-030
board: regatta-controller
stage: received
comeback-of: 2026-004
---

# Regatta controller 01873 again

Back after 2026-004, with a picture: ![edge](../pictures/edge.png) and [the sheet](../sheets/7445.pdf).

## ROM check

| Ref | Image       | CRC-32   |
|-----|-------------|----------|
| U2  | roms/u2.bin | 9d1f4c72 |
`;

export default {
  title: "names of the workspace are found with Ctrl+T, and job numbers and images are links, once each",
  workspace: "../../demo",
  files: { [BACK]: BACK_TEXT, "logs/roms/u2.bin": "x", "sheets/7445.pdf": "x", "pictures/edge.png": "x" },
  async run(editor) {
    const { page } = editor;
    await editor.openFile(BACK, 11, 1);
    await editor.awake();
    const links = () => page.locator(".view-line .detected-link").allTextContents();
    await editor.until("the links", async () => (await links()).includes("2026-004"));
    const all = await links();
    for (const words of ["2026-004", "roms/u2.bin"]) assert.ok(all.includes(words), `${words} in ${all}`);
    assert.equal(all.filter((text) => text === "2026-004").length, 2, `front matter and prose: ${all}`);
    for (const words of ["../pictures/edge.png", "../sheets/7445.pdf"])
      assert.ok(all.filter((text) => text.includes(words)).length <= 1, `${words} is linked once: ${all}`);
    await editor.screenshot("links");
    const link = page.locator(".view-line .detected-link", { hasText: "2026-004" }).last();
    const { x, y } = await link.boundingBox();
    await page.keyboard.down("Control");
    await page.mouse.move(x + 20, y + 8);
    await page.locator(".detected-link-active").waitFor();
    await page.mouse.click(x + 20, y + 8);
    await page.keyboard.up("Control");
    await editor.until("the earlier job", async () => (await editor.activeFile()) === LOG.split("/")[1]);

    await editor.press("Control+T");
    await page.locator(".quick-input-widget:visible input.input").waitFor();
    await page.keyboard.type("u12");
    await editor.until("the part", async () =>
      (await editor.quickRows()).some((row) => /U12 74145/.test(row)),
    );
    await editor.screenshot("names");
    await editor.press("Enter");
    await editor.until("the board file", async () => /board\.yaml$/.test(await editor.activeFile()));
    const part = editor.find("boards/regatta-controller.board.yaml", "  U12: {").line;
    await editor.until("the part's line", async () => (await editor.cursor()).line === part);

    await editor.press("Control+T");
    await page.locator(".quick-input-widget:visible input.input").waitFor();
    await page.keyboard.type("2026-004 row 7");
    await editor.until("the job", async () => /2026-004/.test((await editor.quickRows())[0] ?? ""));
    await editor.press("Enter");
    await editor.until("its log", async () => (await editor.activeFile()) === LOG.split("/")[1]);
    const title = editor.find(LOG, "# Regatta controller").line;
    await editor.until("the log's title", async () => (await editor.cursor()).line === title);
  },
};
