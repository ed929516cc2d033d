import assert from "node:assert/strict";

const LOG = "logs/probing.md";
const HEAD = "---\nmendlog: 1\nboard: sample\n---\n\n";
const TABLE =
  "## Diode check U14\n\n| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n| U14 | 1   | 9       | kept |\n| U14 | 2   |         |      |\n";
const REST = "\nSome words.\n";
const VALUES = ["0.581", "0.574", "0.583", "0.569"];
const FILLED = `${HEAD}${TABLE.replace("9       ", "0.581   ").replace("2   |         ", "2   | 0.574   ")}| U14 | 3   | 0.583   |      |\n| U14 | 4   | 0.569   |      |\n${REST}`;

export default {
  title: "a column copied from elsewhere fills the cells of a table, in one step to undo",
  files: {
    [LOG]: HEAD + TABLE + REST,
    "values.txt": `${VALUES.join("\n")}\n`,
    "wide.txt": "1\t2\t3\t4\n5\t6\t7\t8\n",
  },
  async run(editor) {
    const before = editor.readFile(LOG);
    await copyAll(editor, "values.txt");
    await editor.openFile(LOG);
    await editor.awake();
    const { line, column } = editor.find(LOG, "9       |");
    await editor.goTo(line, column + 1);
    await editor.tableKeys();
    await editor.press("Control+V");
    await editor.until("the last value", async () => (await editor.editorText()).includes("0.569"));
    await editor.screenshot("paste-column");
    assert.match(
      await editor.until("word of what was replaced", async () => (await editor.notifications())[0]),
      /1 value was replaced/,
    );
    await editor.save();
    assert.equal(editor.readFile(LOG), FILLED);
    await editor.press("Control+Z");
    await editor.save();
    assert.equal(editor.readFile(LOG), before, "one undo takes it all back");

    // The same by name.
    await editor.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await editor.goTo(line, column + 1);
    await editor.command("Mendlog: Paste a column of values");
    await editor.until("the last value", async () => (await editor.editorText()).includes("0.569"));
    await editor.save();
    assert.equal(editor.readFile(LOG), FILLED);
    await editor.press("Control+Z");
    await editor.save();
    assert.equal(editor.readFile(LOG), before);

    // What does not fit is not pasted at all, and told.
    await copyAll(editor, "wide.txt");
    await editor.openFile(LOG);
    await editor.goTo(line, column + 1);
    await editor.press("Control+V");
    await editor.until("the reason", async () =>
      (await editor.notifications()).some((text) => text.includes("4 columns") && text.includes("has 2")),
    );
    await editor.screenshot("paste-too-wide");
    assert.ok((await editor.editorText()).includes("| U14 | 1   | 9       | kept |"));
  },
};

async function copyAll(editor, name) {
  await editor.openFile(name);
  await editor.press("Control+A");
  await editor.press("Control+C");
}
