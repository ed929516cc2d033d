import assert from "node:assert/strict";

const LOG = "logs/2026-030-controller.md";
const FRONT = "---\nmendlog: 1\njob: 2026-030\nboard: regatta-controller\nstage: diagnosing\n---\n\n";
const PROSE = "Text with  |  pipes and `a|b` stays   as it is.\n\n- |in|a list|\n  |-|-|\n  |1|2|\n";
const TYPED = `${FRONT}# Lane 5

${PROSE}
## Supply rails, loaded

|Rail|Reading|Ripple|Note|
|-|-|-:|-|
|+5V|5.02 V|12 mV|TP1|
|+12V|12.21 V|20 mV|基板 2 \\| 3|
|VMEM|OL||

## Diode check

Pin|U13|U14
-|-|-
1|0.55|OL
14|0.312|0.31
`;
const ALIGNED = `${FRONT}# Lane 5

${PROSE}
## Supply rails, loaded

| Rail | Reading | Ripple | Note        |
|------|---------|-------:|-------------|
| +5V  |  5.02 V |  12 mV | TP1         |
| +12V | 12.21 V |  20 mV | 基板 2 \\| 3 |
| VMEM | OL      |        |             |

## Diode check

| Pin | U13   | U14  |
|-----|-------|------|
| 1   | 0.55  | OL   |
| 14  | 0.312 | 0.31 |
`;

export default {
  title: "the tables of a log are put in line from the palette, and a plain document is left to others",
  workspace: "../../demo",
  async run(editor) {
    editor.writeFile(LOG, TYPED);
    await editor.openFile(LOG);
    await editor.awake();
    await editor.command("Format Document");
    await editor.until("the table in line", async () =>
      /\| \+5V {2}\| {2}5\.02 V \|/.test(await editor.editorText()),
    );
    await editor.screenshot("formatted");
    await editor.save();
    assert.equal(editor.readFile(LOG), ALIGNED);

    // One step back undoes all of it.
    await editor.press("Control+Z");
    await editor.until("the log as it was typed", async () =>
      /\|\+5V\|5\.02 V\|/.test(await editor.editorText()),
    );
    // A selection aligns the table it lies in, and no other.
    await editor.select(editor.find(LOG, "| 14  |").line, 1, 4);
    await editor.command("Format Selection");
    await editor.until("the second table in line", async () =>
      (await editor.editorText()).includes("| 14  | 0.312 | 0.31 |"),
    );
    assert.match(await editor.editorText(), /\|\+5V\|5\.02 V\|/);
    await editor.save();

    // No formatter of ours stands in the way of another one of plain Markdown, nor of board files.
    for (const name of ["notes.md", "boards/regatta-controller.board.yaml"]) {
      const before = editor.readFile(name);
      await editor.openFile(name);
      await editor.command("Format Document");
      const box = editor.page.locator(".monaco-dialog-box");
      await editor.until("the word that there is no formatter", async () =>
        /no formatter/i.test((await box.textContent().catch(() => "")) ?? ""),
      );
      assert.equal(editor.readFile(name), before);
      await editor.press("Escape");
      await box.waitFor({ state: "hidden" });
    }
  },
};
