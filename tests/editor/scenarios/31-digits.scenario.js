import assert from "node:assert/strict";

const LOG = "logs/probing.md";
const HEAD =
  "---\nmendlog: 1\nboard: sample\n---\n\n## Diode check\n\n| Pin | U14      |\n|-----|----------|\n";
/** Digits as they are read off the meter, what they stand for, and the list where they may be several readings. */
const READINGS = [
  ["58", "0.58 V", ["0.58 V", "0.058 V"]],
  ["573", "0.573 V"],
  ["1487", "1.487 V"],
];

export default {
  title:
    "digits without a point become the reading they stand for, and are offered where they may be several",
  files: { [LOG]: HEAD },
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    await editor.goTo(HEAD.split("\n").length - 1);
    await editor.press("End");
    await editor.tableKeys();
    await editor.press("Enter");
    for (const [i, [digits, , list]] of READINGS.entries()) {
      await editor.until(`pin ${i + 1}`, async () => (await editor.editorText()).includes(`| ${i + 1}   |`));
      await editor.typeText(digits, { delay: 60 });
      if (list) {
        const offered = await editor.until("the readings in the list", async () => {
          const rows = await editor.suggestions();
          return rows[0]?.startsWith(list[0]) && rows;
        });
        assert.deepEqual(
          offered.map((row) => row.split("  ")[0].trim()),
          list,
        );
        await editor.screenshot("digits-offered");
      }
      await editor.press("Enter");
    }
    // What is a reading as it stands is taken as it stands.
    await editor.until("pin 4", async () => (await editor.editorText()).includes("| 4   |"));
    await editor.typeText("0.6", { delay: 60 });
    await editor.press("Enter");
    await editor.until("pin 5", async () => (await editor.editorText()).includes("| 5   |"));
    await editor.screenshot("digits-taken");
    await editor.save();
    const rows = editor.readFile(LOG).slice(HEAD.length).split("\n");
    assert.deepEqual(
      rows.slice(0, 5).map((row) => row.split("|").map((cell) => cell.trim())),
      [
        ...READINGS.map(([, reading], i) => ["", String(i + 1), reading, ""]),
        ["", "4", "0.6", ""],
        ["", "5", "", ""],
      ],
    );
  },
};
