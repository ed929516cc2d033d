import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";

export default {
  title: "hovers explain a reading, a designator, a pin, a heading and a symptom",
  workspace: "../../demo",
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    const over = (text, near, says) => editor.hoverWord(text, { line: editor.find(LOG, near).line, says });

    const reading = await over("1.42", "| 3   | 1.42", /(?=.*Out of limits).*SW_COL_3.*U12\.3/s);
    assert.match(reading, /Out of limits/);
    assert.match(reading, /1\.42 V ± [\d.]+ mV > 0\.66 V/, "the arithmetic");
    assert.match(reading, /0\.5 V to 0\.66 V/, "the limits");
    assert.match(reading, /Source: invented for this demo/);
    await editor.screenshot("hover-reading");

    const within = await over("0.581", "| 1   | 0.581", /Within limits/);
    assert.match(within, /≤ 0\.581 V ± [\d.]+ mV ≤/);

    const designator = await over("U14", "| Pin | U12", /74LS14/);
    assert.match(designator, /Schmitt/i);
    assert.match(designator, /Switch matrix/);
    assert.match(designator, /7414/, "what else fits");
    assert.match(designator, /SW_ROW_7/, "its pins with their nets");
    await editor.screenshot("hover-designator");

    const pin = await over("12 ", "| U10 | 12", /pin 12/);
    assert.match(pin, /6821/);
    assert.match(pin, /CSEL_2.*U12\.13/, "what else is on the net");
    await editor.screenshot("hover-pin");

    const heading = await over("Diode check", "## Diode check\n", /Source:/);
    assert.ok(heading.search(/Caution/) < heading.search(/Steps/), "cautions come before steps");
    assert.match(heading, /discharge/i);
    assert.match(heading, /cannot tell/);
    await editor.screenshot("hover-heading");

    const symptom = await over("row-dead", "symptoms:", /Switch matrix/);
    assert.match(symptom, /U13/, "the parts of the circuit to look at");
    await editor.screenshot("hover-symptom");
    for (const said of [reading, within, designator, pin, heading, symptom])
      assert.doesNotMatch(said, /\bpassed\b|\b(is|tests?|reads?) good\b/i);
  },
};
