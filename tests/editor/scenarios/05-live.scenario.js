import assert from "node:assert/strict";

const LOG = "logs/faulty.md";

export default {
  title: "a finding goes when the digit is corrected and comes when one is mistyped",
  async run(editor) {
    await editor.openFile(LOG);
    const wrong = editor.find(LOG, "1.42");
    const right = editor.find(LOG, "0.58");
    const of = (place) => (it) => it.code === "diode-out-of-window" && it.line === place.line;
    await editor.waitForProblem(of(wrong));
    assert.ok(!(await editor.problems()).some(of(right)), "0.58 has no finding at first");

    await editor.select(wrong.line, wrong.column, 4);
    await editor.typeText("0.59");
    await editor.waitForNoProblem(of(wrong));

    await editor.select(right.line, right.column, 4);
    await editor.typeText("1.58");
    // While the digits come in, each beginning of the number has its own finding.
    await editor.waitForProblem((it) => of(right)(it) && /reads 1\.58 V/.test(it.message));
    await editor.screenshot("live");

    await editor.select(right.line, right.column, 4);
    await editor.typeText("0.58");
    await editor.waitForNoProblem(of(right));
  },
};
