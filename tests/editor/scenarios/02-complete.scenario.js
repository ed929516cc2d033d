import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";
const labels = (rows) => rows.map((row) => row.split("  ")[0]);

export default {
  title: "typing a row offers designators, then that chip's pins, then what a meter or a probe can show",
  workspace: "../../demo",
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();

    const last = editor.find(LOG, "| U26 | 6");
    await editor.goTo(last.line);
    await editor.press("End");
    await editor.typeText("\n| U1");
    const refs = await editor.complete({ ask: false });
    for (const ref of ["U1", "U10", "U14"])
      assert.ok(labels(refs).includes(ref), `${ref} among ${labels(refs).join(", ")}`);
    assert.ok(!labels(refs).includes("U2"), "what does not begin like that is left out");
    assert.match(refs.find((row) => row.startsWith("U14")) ?? "", /74LS14.*Switch matrix/);
    await editor.screenshot("complete-designator");
    await editor.acceptCompletion("U14");

    await editor.typeText(" | ");
    const pins = await editor.complete({ ask: false });
    assert.deepEqual(labels(pins).slice(0, 3), ["1", "2", "3"]);
    assert.match(pins[0], /1A input.*net SW_ROW_7/);
    await editor.screenshot("complete-pin");
    await editor.acceptCompletion("1Y output");

    await editor.typeText(" | ");
    assert.deepEqual(labels(await editor.complete({ ask: false })), ["OL", "-"]);
    await editor.typeText("557 m");
    assert.ok(labels(await editor.complete()).includes("557 mV"), "a unit behind the number");
    await editor.acceptCompletion("557 mV");
    await editor.typeText(" | |");
    await editor.save();
    assert.equal(
      editor.readFile(LOG).split("\n")[last.line],
      "| U14 | 2   | 557 mV  |                                    |",
    );

    const state = editor.find(LOG, "| U13 | 2   | pulse");
    await editor.goTo(state.line);
    await editor.press("End");
    await editor.typeText("\n| U13 | 3 | ");
    const states = labels(await editor.complete({ ask: false }));
    assert.deepEqual(states, ["H", "L", "pulsing", "floating", "-"]);
    await editor.press("Escape");
  },
};
