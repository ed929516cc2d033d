import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";

export default {
  title: "quick fixes correct a mistyped designator and a mistyped digit",
  workspace: "../../demo",
  async run(editor) {
    await editor.openFile(LOG);
    editor.filterProblems("unknown-designator");
    const stranger = await editor.waitForProblem((it) => it.file === LOG && it.code === "unknown-designator");
    const place = editor.find(LOG, "U41");
    assert.deepEqual({ line: stranger.line, column: stranger.column }, place);
    await editor.goTo(place.line, place.column + 1);
    const titles = await editor.fixes();
    assert.ok(titles.includes("Change to U14"), titles.join(" / "));
    await editor.screenshot("quick-fix");
    await editor.press("Escape");
    await editor.quickFix("Change to U14");
    await editor.waitForNoProblem((it) => it.file === LOG && it.code === "unknown-designator");

    const digit = editor.find(LOG, "O.58");
    editor.filterProblems("unreadable-value");
    const unread = (it) => it.file === LOG && it.code === "unreadable-value" && it.line === digit.line;
    await editor.waitForProblem(unread);
    await editor.goTo(digit.line, digit.column + 1);
    await editor.quickFix("0.58");
    await editor.waitForNoProblem(unread);

    await editor.save();
    const lines = editor.readFile(LOG).split("\n");
    assert.match(lines[place.line - 1], /^\| U14 \| 7 /);
    assert.match(lines[digit.line - 1], /^\| 5 {3}\| 0\.582 \| 0\.58 +\| 0\.572 \|$/);
    editor.filterProblems("diode-out-of-window");
    await editor.waitForProblem((it) => it.file === LOG);
  },
};
