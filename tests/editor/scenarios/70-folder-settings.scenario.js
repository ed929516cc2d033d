import assert from "node:assert/strict";

const LOG = "logs/faulty.md";
const SETTINGS = ".vscode/settings.json";
const coded = (code) => (it) => it.code === code;

export default {
  title: "a number that a check goes by is chosen in the settings, with its bounds shown there",
  settings: { "mendlog.options": { "net-disagreement": { margin: 5 } } },
  async run(editor) {
    await editor.openFile(SETTINGS);
    const line = editor.find(SETTINGS, "margin").line;
    assert.match(
      await editor.hoverWord("margin", { line, says: /times the usual difference/ }),
      /common practice/,
    );
    editor.writeFile(
      SETTINGS,
      JSON.stringify({ "mendlog.options": { "net-disagreement": { margin: 500 } } }),
    );
    await editor.waitForProblem((it) => /above the maximum|Maximum/i.test(it.message));
    await editor.screenshot("settings-option");
    editor.writeFile(SETTINGS, JSON.stringify({ "mendlog.severity": { "diode-out-of-window": "error" } }));
    await editor.openFile(LOG);
    await editor.waitForProblem((it) => coded("diode-out-of-window")(it) && it.severity === "error");
  },
};
