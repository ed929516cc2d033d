import assert from "node:assert/strict";

const LOG = "logs/quiet.md";
const TYPED = [
  "",
  "## Diode check after repair",
  "",
  "| Pin | U14 | U15 |",
  "|---|---|---|",
  "| 1 | 0.58 | 0.57 |",
  "| 2 | OL | - |",
  "",
  "## Supply rails, loaded",
  "",
  "| Rail | DC |",
  "|---|---|",
  "| +5V | 5.02 |",
  "",
];

export default {
  title: "typing tables without a pause leaves exactly what was typed: no suggestion and no row slips in",
  async run(editor) {
    const before = editor.readFile(LOG);
    await editor.openFile(LOG);
    await editor.press("Control+End");
    // The rows that Enter starts give way to those typed by hand, and go again where Enter follows at once.
    // A suggestion list that is open when Enter ends the row would be taken instead of a new line.
    const whole = TYPED.join("\n");
    const begun = TYPED.slice(0, 6).join("\n");
    await editor.typeText(whole, { delay: 5 });
    await editor.typeText(begun, { delay: 50 });
    await editor.save();
    assert.equal(editor.readFile(LOG), before + whole + begun);
  },
};
