import assert from "node:assert/strict";

const LOG = "logs/faulty.md";

export default {
  title: "hovers explain a reading, a designator and a heading",
  async run(editor) {
    await editor.openFile(LOG);
    const reading = await editor.hoverWord("1.42", { line: editor.find(LOG, "1.42").line, says: /ROW_1|1Y/ });
    assert.match(reading, /U14/);
    await editor.screenshot("hover-reading");

    const designator = await editor.hoverWord("U14", { line: editor.find(LOG, "U14").line, says: /74LS04/ });
    assert.match(designator, /inverter/i);
    assert.match(designator, /DIP-14/);
    await editor.screenshot("hover-designator");

    const heading = await editor.hoverWord("Diode check", {
      line: editor.find(LOG, "## Diode check").line,
      says: /ground/i,
    });
    assert.match(heading, /unpowered|power off|discharge/i);
    await editor.screenshot("hover-heading");
    for (const said of [reading, designator, heading])
      assert.doesNotMatch(said, /\bpassed\b|\btests? good\b/i);
  },
};
