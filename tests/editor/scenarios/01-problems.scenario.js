import assert from "node:assert/strict";

export default {
  title: "the Problems panel shows each finding with its code, severity and message",
  async run(editor) {
    await editor.openFile("logs/faulty.md");
    const open = await editor.waitForProblem((it) => it.code === "diode-out-of-window");
    assert.equal(open.file, "logs/faulty.md");
    assert.equal(open.severity, "warning");
    assert.match(open.source, /mendlog/i);
    assert.deepEqual({ line: open.line, column: open.column }, editor.find("logs/faulty.md", "1.42"));
    assert.match(open.message, /U14 pin 2/);
    assert.match(open.message, /1\.42 V/);

    const unreadable = await editor.waitForProblem((it) => it.code === "unreadable-value");
    assert.equal(unreadable.severity, "error");
    assert.match(unreadable.message, /O\.58/);
    assert.deepEqual(
      { line: unreadable.line, column: unreadable.column },
      editor.find("logs/faulty.md", "O.58"),
    );

    const stranger = await editor.waitForProblem((it) => it.code === "unknown-designator");
    assert.match(stranger.message, /U41.*U14/);
    for (const severity of ["error", "warning"]) await editor.page.waitForSelector(`.squiggly-${severity}`);
    await editor.screenshot("problems");
  },
};
