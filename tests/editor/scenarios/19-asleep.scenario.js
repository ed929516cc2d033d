import assert from "node:assert/strict";

const NOTES = `# Shopping, not a log

## Diode check

| Ref | Pin | Reading |
| --- | --- | ------- |
| U99 | 77  | O.58    |
`;
const COMMAND = "Mendlog: Restart the language server";

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
    // Hovers of Markdown's own extension run in the same host; when it answers, ours has been woken as well.
    await editor.until("the extension to be activated", async () =>
      /_doActivateExtension mendlog\.mendlog.*onLanguage:markdown/.test(
        editor.server.output(/remoteexthost/i),
      ),
    );
    assert.equal(await started(), false, "no server for plain Markdown");
    assert.deepEqual(await editor.problems(), []);

    await editor.press("Control+Home");
    await editor.typeText("---\nmendlog: 1\n---\n");
    const found = await editor.waitForProblem((it) => it.code === "unreadable-value");
    assert.match(found.message, /Q\.58/);
    assert.equal(await started(), true);
  },
};
