import assert from "node:assert/strict";

export default {
  title: "a Markdown file that is no log has no findings and no hovers",
  async run(editor) {
    await editor.openFile("notes.md");
    await editor.openFile("logs/faulty.md");
    // The log's findings show that the extension is awake and has read what is open.
    await editor.waitForProblem((it) => it.file === "logs/faulty.md");
    await editor.openFile("notes.md");
    const place = editor.find("notes.md", "9.99");
    await editor.select(place.line, place.column, 4);
    await editor.typeText("8.88");
    await editor.openFile("logs/faulty.md");
    const digit = editor.find("logs/faulty.md", "0.58");
    await editor.select(digit.line, digit.column, 4);
    await editor.typeText("1.58");
    await editor.waitForProblem((it) => it.line === digit.line);
    const strays = (await editor.problems()).filter((it) => it.file === "notes.md");
    assert.deepEqual(strays, []);

    await editor.openFile("notes.md");
    await assert.rejects(editor.hoverWord("U99", { line: place.line, timeout: 2_000 }), /no hover said/);
  },
};
