import assert from "node:assert/strict";

const LOG = "logs/faulty.md";
const SETTINGS = ".vscode/settings.json";
const coded = (code) => (it) => it.code === code;

export default {
  title: "turning a check off in the settings takes its findings away at once, and back",
  settings: {},
  async run(editor) {
    await editor.openFile(LOG);
    await editor.waitForProblem(coded("diode-out-of-window"));
    editor.writeFile(SETTINGS, JSON.stringify({ "mendlog.severity": { "diode-out-of-window": "off" } }));
    await editor.waitForNoProblem(coded("diode-out-of-window"));
    assert.ok((await editor.problems()).some(coded("unreadable-value")), "the others stay");
    editor.writeFile(SETTINGS, JSON.stringify({ "mendlog.severity": { "diode-out-of-window": "error" } }));
    const back = await editor.waitForProblem(coded("diode-out-of-window"));
    assert.equal(back.severity, "error");
  },
};
