import assert from "node:assert/strict";

const NOTES = `# Shopping, not a log

## Diode check

| Ref | Pin | Reading |
| --- | --- | ------- |
| U99 | 77  | O.58    |
`;
const COMMAND = "Mendlog: Restart the checker";

export default {
  title: "in a folder without boards the server starts only when a Markdown file becomes a log",
  workspace: null,
  files: { "notes.md": NOTES },
  async run(editor) {
    // The command is there only once the server was started.
    const started = async () => {
      await editor.quickInput(`>${COMMAND}`);
      let rows = [];
      await editor.until("an answer of the palette", async () => {
        rows = await editor.quickRows();
        return rows.length > 0;
      });
      await editor.press("Escape");
      return rows.some((row) => row.startsWith(COMMAND));
    };
    await editor.openFile("notes.md");
    const digit = editor.find("notes.md", "O.58");
    await editor.select(digit.line, digit.column, 1);
    await editor.typeText("Q");
    await editor.command("Developer: Show Running Extensions");
    await editor.until("the extension among the running ones", async () => {
      const rows = await editor.page.$$eval(".runtime-extensions-editor .monaco-list-row", (nodes) =>
        nodes.map((node) => node.textContent ?? ""),
      );
      return rows.some((row) => /mendlog/i.test(row) && /activation/i.test(row));
    });
    await editor.press("Escape");
    await editor.openFile("notes.md");
    assert.equal(await started(), false, "no server for plain Markdown");
    assert.deepEqual(await editor.problems(), []);

    await editor.goTo(1);
    await editor.typeText("---\nmendlog: 1\n---\n", { delay: 40 });
    const found = await editor.waitForProblem((it) => it.code === "unreadable-value");
    assert.match(found.message, /Q\.58/);
    assert.equal(await started(), true);
  },
};
