import assert from "node:assert/strict";

const LOG = "logs/2026-030.md";
const TEXT = `---
mendlog: 1
---

## Supply rails

| Rail | Reading |
|------|---------|
| +5V  | 4.1     |
`;

export default {
  title:
    "the task checks the folder with the command line that the extension brings, and its findings are problems",
  workspace: null,
  files: { [LOG]: TEXT, "notes.txt": "Nothing to check.\n" },
  async run(editor) {
    const { press, typeText, until } = editor;
    const choose = async (row) => {
      await until(`"${row}" to choose`, async () => (await editor.listed()).some((one) => one.includes(row)));
      await typeText(row);
      await until(`"${row}" first`, async () => (await editor.listed())[0]?.includes(row));
      await press("Enter");
    };
    const rails = async () =>
      (await editor.problems()).filter(({ code }) => code === "rail-out-of-tolerance");

    // No log is open, so nothing but the task looks at them.
    await editor.openFile("notes.txt");
    await editor.command("Tasks: Run Task");
    await choose("mendlog");
    await choose("check the logs");
    const found = await editor.waitForProblem(({ code }) => code === "rail-out-of-tolerance");
    assert.deepEqual([found.file, found.line, found.column, found.severity], [LOG, 9, 10, "warning"]);
    assert.match(found.message, /^\+5V reads 4\.1; it should be/);
    await editor.screenshot("check-task");

    // With the log open it is the server's, and told once.
    await editor.openFile(LOG);
    await editor.waitForProblem(({ code }) => code === "board-not-named");
    await until("one finding of the rail", async () => (await rails()).length === 1);
    const place = editor.find(LOG, "4.1");
    await editor.select(place.line, place.column, 3);
    await typeText("5.0");
    await editor.waitForNoProblem(({ code }) => code === "rail-out-of-tolerance");
  },
};
