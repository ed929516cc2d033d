import assert from "node:assert/strict";

const GOOD = "good.md";
const NOW = "now.md";
const log = (front, drop) =>
  `---\nmendlog: 1\n${front}board: halden\n---\n\n# A board\n\n## Diode check U5 (7404)\n\n| Pin | Reading |\n|-----|---------|\n| 1   | ${drop}    |\n`;
const isOdd = (it) => it.file === NOW && it.code === "diode-out-of-window";

export default {
  title:
    "a job taken as the reference tells of another board's pin at once, and becomes a limit in the board file",
  workspace: null,
  files: {
    [GOOD]: log("job: 2026-003\n", "0.48"),
    [NOW]: log("job: 2026-004\n", "0.60"),
    "halden.board.yaml":
      "mendlog-board: 1\nid: halden\ntitle: Halden # as on the label\nparts:\n  U5: { device: 7404 }\n",
  },
  async run(editor) {
    // Inside the family's window: without a reference nothing is said of it.
    await editor.openFile(GOOD);
    await editor.command("Mendlog: Take this job as the reference");
    await editor.told("what it does", /compared with this job once it is saved/);
    await editor.save();
    await editor.until("the key", async () =>
      editor.readFile(GOOD).includes("board: halden\nreference: true\n---"),
    );
    await editor.waitForProblem(isOdd);
    await editor.command("Mendlog: Take this job as the reference");
    await editor.told("that it is one", /is a reference for halden already/);

    await editor.openFile(NOW);
    const place = editor.find(NOW, "0.60");
    const told = await editor.waitForProblem(isOdd);
    assert.match(told.message, /0\.6 V; the reference job reads 0\.43 V to 0\.53 V/);
    assert.ok(
      told.related.some((text) => text.includes("job 2026-003 reads 0.48 V here")),
      JSON.stringify(told.related),
    );
    await editor.goTo(place.line, place.column + 1);
    await editor.screenshot("reference-job");

    // Into the board file, which comes in front, changed and not saved.
    await editor.command("Mendlog: Propose these limits for the board file");
    await editor.told("what was proposed", /1 limit proposed for the board file and not saved yet/);
    await editor.until("the limit", async () =>
      /low: 0\.43 V, high: 0\.53 V/.test(await editor.editorText()),
    );
    assert.match(await editor.editorText(), /title: Halden # as on the label/);
    await editor.screenshot("reference-job-proposed");
    assert.doesNotMatch(editor.readFile("halden.board.yaml"), /expected/);
    await editor.press("Control+Z");
    await editor.until("it to be gone", async () => !/expected/.test(await editor.editorText()));
  },
};
