import assert from "node:assert/strict";

const LOG = "logs/faulty.md";

export default {
  title: "a quick fix corrects a mistyped designator",
  async run(editor) {
    await editor.openFile(LOG);
    await editor.waitForProblem((it) => it.code === "unknown-designator");
    const place = editor.find(LOG, "U41");
    await editor.goTo(place.line, place.column + 1);
    const titles = await editor.fixes();
    assert.ok(titles.includes("Change to U14"), titles.join(" / "));
    await editor.screenshot("quick-fix");
    await editor.press("Escape");
    await editor.quickFix("Change to U14");
    await editor.waitForNoProblem((it) => it.code === "unknown-designator");
    await editor.save();
    assert.match(editor.readFile(LOG).split("\n")[place.line - 1], /^\| U14 \| 3 /);
    await editor.waitForProblem((it) => it.code === "diode-out-of-window");
  },
};
