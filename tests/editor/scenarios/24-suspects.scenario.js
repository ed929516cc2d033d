import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";
const lenses = (editor) => editor.page.locator(".codelens-decoration").allTextContents();

export default {
  title: "lenses name the suspects, the hover on a symptom ranks them, and the command writes them down",
  workspace: "../../demo",
  settings: { "editor.codeLens": true },
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    await editor.until("a lens with the suspects", async () =>
      (await lenses(editor)).some((text) => /Suspects: U1[24] about.*U1[24] about.*next:/.test(text)),
    );
    await editor.screenshot("suspects-lens");

    const line = editor.find(LOG, "symptoms:").line;
    const symptom = await editor.hoverWord("row-dead", { line, says: /Next reading/ });
    assert.match(symptom, /U1[24].*U1[24]/s);
    await editor.screenshot("suspects-hover");

    await editor.command("Mendlog: Write the suspects into this log");
    // The server writes the section when it has worked it out.
    await editor.changed();
    await editor.save();
    const written = editor.readFile(LOG);
    assert.match(written, /\n## Suspects\n/);
    assert.match(written, /\n[12]\. \*\*U12\*\* \(74145 [^\n]*about \d+ %/);
    assert.match(written, /\n<!-- mendlog-suspects-end -->\n$/);
    await editor.screenshot("suspects-written");

    // In any other file there is nothing to suspect, and nothing is offered.
    await editor.openFile("notes.md");
    await editor.quickInput(">Mendlog: ");
    await editor.until("the commands of Mendlog", async () =>
      (await editor.quickRows()).some((row) => row.startsWith("Mendlog: Restart")),
    );
    assert.deepEqual(
      (await editor.quickRows()).filter((row) => row.includes("suspects")),
      [],
    );
  },
};
