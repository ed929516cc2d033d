import assert from "node:assert/strict";

const LOG = "logs/probing.md";
const HEAD = "---\nmendlog: 1\nboard: sample\n---\n\n";
const TABLE = "## Diode check U14\n\n| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|";
const READINGS = [
  "0.581",
  "0.574",
  "0.583",
  "0.569",
  "0.577",
  "0.572",
  "0.001",
  "0.568",
  "0.579",
  "0.571",
  "0.584",
  "0.566",
  "0.580",
  "0.312",
];

const EMPTY = /^\| +\| +\| +\| +\|$/m;

export default {
  title: "a chip's pins are typed with number keys and Enter alone",
  files: {
    [LOG]: `${HEAD}${TABLE}\n\n## Supply rails, loaded\n\n| Rail | Reading | Ripple |\n|---|---|---|\n| +5V | 5.02 V | 12 mV |\n`,
  },
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    const { line } = editor.find(LOG, "|-----|");
    await editor.goTo(line);
    await editor.press("End");
    await editor.tableKeys();
    for (const reading of READINGS) {
      await editor.press("Enter");
      await editor.typeText(reading, { delay: 30 });
    }
    const rows = READINGS.map(
      (reading, i) => `| U14 | ${String(i + 1).padEnd(3)} | ${reading.padEnd(7)} |      |`,
    );
    await editor.until("the last row", async () => (await editor.editorText()).includes(rows.at(-1)));
    await editor.screenshot("next-row-fourteen-pins");
    await editor.save();
    assert.equal(tableOf(editor), rows.join("\n"));

    // All pins have a row: one more Enter asks for another chip, and Enter again ends the table.
    await editor.press("Enter");
    await editor.until("the empty row", async () => EMPTY.test(await editor.editorText()));
    await editor.press("Enter");
    await editor.until("the row to go", async () => !EMPTY.test(await editor.editorText()));
    await editor.typeText("Nothing stands out.");
    await editor.save();
    assert.equal(
      editor.readFile(LOG).split("\n## Supply")[0],
      `${HEAD}${TABLE}\n${rows.join("\n")}\n\nNothing stands out.\n`,
    );
  },
};

const tableOf = (editor) =>
  editor
    .readFile(LOG)
    .split("\n")
    .filter((line) => line.startsWith("| U14"))
    .join("\n");
