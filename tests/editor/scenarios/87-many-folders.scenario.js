import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const bench = (path) => readFileSync(fileURLToPath(new URL(`../bench/${path}`, import.meta.url)), "utf8");
const BOARD = bench("boards/sample.board.yaml");
const LOG = bench("logs/faulty.md");
const RULE = "| --- | --- | ------- | ---- |\n";
/** The same readings again, without the dashed row that makes a table of them. */
const TORN = `${LOG}\nLater:\n\n${LOG.slice(LOG.indexOf("## ")).replace("check", "check after repair").replace(RULE, "")}`;
const SHEET = "https://example.org/sheets/74ls04.pdf";
const IN = { east: "east/logs/east.md", west: "west/logs/west.md" };

export default {
  title:
    "two folders in one window go by settings of their own; saving applies the sure fixes; an address is one link",
  workspace: null,
  manyFolders: "shop.code-workspace",
  files: {
    "shop.code-workspace": JSON.stringify({
      folders: [{ path: "east" }, { path: "west" }],
      settings: { "[markdown]": { "editor.codeActionsOnSave": { "source.fixAll.mendlog": "explicit" } } },
    }),
    "east/east.board.yaml": BOARD.replace("invented for these tests", SHEET),
    [IN.east]: TORN,
    "west/west.board.yaml": BOARD.replace("id: sample", "id: other"),
    [IN.west]: LOG.replace("board: sample", "board: other"),
    "west/.vscode/settings.json": JSON.stringify({ "mendlog.severity": { "diode-out-of-window": "off" } }),
  },
  async run(editor) {
    const { page } = editor;
    const of = (file, code) => (it) => it.code === code && it.file.endsWith(file);
    await editor.openFile(IN.west);
    await editor.waitForProblem(of("west.md", "unreadable-value"));
    await editor.openFile(IN.east, 1, 1);
    assert.equal((await editor.waitForProblem(of("east.md", "diode-out-of-window"))).severity, "warning");
    assert.ok(
      !(await editor.problems()).some(of("west.md", "diode-out-of-window")),
      "off in its own folder only",
    );
    await editor.screenshot("many-folders");
    await editor.focusEditor();
    await editor.goTo(editor.find(IN.east, "# Sample").line, 1);
    await editor.typeText(" ");
    await editor.save();
    await editor.until("the fix on saving", () => editor.readFile(IN.east).split("| --- |").length === 3);
    for (const guess of ["O.58", "U41"])
      assert.ok(editor.readFile(IN.east).includes(guess), `${guess} is kept`);

    await editor.openFile("east/east.board.yaml", 1, 1);
    const line = editor.find("east/east.board.yaml", SHEET).line;
    await editor.until("the link", async () => (await page.locator(".view-line .detected-link").count()) > 0);
    const told = await editor.hoverWord("example.org", { line, says: /data sheet|link/i });
    await editor.screenshot("sheet-link");
    assert.equal(told.match(/click\)/g)?.length, 1, told);
    assert.match(told, /data sheet/i);
  },
};
