import assert from "node:assert/strict";
import { existsSync } from "node:fs";

const COMMAND = "Mendlog: Write a board file from these logs";
const DIALOG = ".quick-input-widget";
const chip = (ref, number) =>
  `## Diode check ${ref} (${number})\n\n| Pin | Reading |\n|-----|---------|\n| 1   | 0.58    |\n\n`;
const log = (front, body) => `---\nmendlog: 1\n${front}---\n\n# A board\n\n${body}`;
const LUND = "lund.board.yaml";

export default {
  title:
    "a board file comes out of the logs of a board, unsaved and with its place; what it lacks is one fix away",
  workspace: null,
  files: {
    "logs/one.md": log("job: 2026-014\nboard: halden\n", chip("U5", "7404")),
    "logs/two.md": log("job: 2026-018\nboard: halden\n", chip("U6", "7408")),
    "logs/nameless.md": log("job: 2026-019\n", chip("U1", "74LS00")),
    "logs/lund.md": log("job: 2026-020\nboard: lund\n", chip("U5", "7404") + chip("U6", "7408")),
    [LUND]:
      'mendlog-board: 1\nid: lund\ntitle: Lund # as on the label\nparts:\n  U5: { device: "7400" } # near the edge\n',
  },
  async run(editor) {
    const dirty = () => editor.page.locator(".tab.active.dirty").count();

    // From the quiet hint on the board's name, out of both of its logs.
    await editor.openFile("logs/one.md", 4, 10);
    await editor.awake?.();
    await editor.quickFix("Write a board file for halden from its logs");
    await editor.told("what it was made of", /halden: 2 parts from 2 logs\. Check it, then save it/);
    const text = await editor.editorText();
    assert.match(text, /id: halden/);
    assert.match(text, /U5: \{ device: "7404" \} # log 2026-014, line 9/);
    assert.match(text, /U6: \{ device: "7408" \} # log 2026-018, line 9/);
    await editor.screenshot("board-from-logs");
    assert.equal(existsSync(`${editor.folder}/boards/halden.board.yaml`), false);
    // Beside the board file that is there already, and only when it is saved.
    await editor.save();
    await editor.until("the file", async () => existsSync(`${editor.folder}/halden.board.yaml`));

    // A second time there is nothing to add.
    await editor.openFile("logs/two.md");
    await editor.command(COMMAND);
    await editor.told("that nothing is new", /board file already has everything in these logs/);

    // One fix at a time into a file that somebody typed: it is changed in the editor, and not on the disk.
    await editor.openFile("logs/lund.md", 15, 22);
    await editor.quickFix("Add U6 (7408) to the board file");
    await editor.openFile(LUND);
    await editor.until("the part in the file", async () =>
      /U6: \{ device: "7408" \} # log 2026-020, line 15/.test(await editor.editorText()),
    );
    assert.match(await editor.editorText(), /title: Lund # as on the label/);
    await editor.screenshot("board-from-logs-one-part");
    assert.doesNotMatch(editor.readFile(LUND), /U6/);
    assert.equal(await dirty(), 1);
    await editor.press("Control+Z");
    await editor.until("it to be gone", async () => !/U6/.test(await editor.editorText()));

    // Log and file disagree: one of the two is set right.
    await editor.openFile("logs/lund.md", 9, 22);
    const offered = await editor.fixes();
    assert.ok(offered.includes("Set U5 to 7404 in the board file"), offered.join(" / "));
    assert.ok(offered.includes("Change to 7400 here"));
    await editor.screenshot("board-from-logs-disagree");
    await editor.press("Escape");

    // A log that names no board is asked for a name, and names it from then on.
    await editor.openFile("logs/nameless.md");
    await editor.command(COMMAND);
    const input = editor.page.locator(`${DIALOG} input.input`).first();
    await editor.until("the question for the name", async () =>
      /What is the board called/.test((await editor.page.locator(DIALOG).textContent()) ?? ""),
    );
    await input.fill("Lund 2 lanes");
    await editor.screenshot("board-from-logs-name");
    await editor.press("Enter");
    await editor.told("what it was made of", /lund-2-lanes: 1 part from one log/);
    assert.match(await editor.editorText(), /id: lund-2-lanes\s+title: Lund 2 lanes/);
    await editor.openFile("logs/nameless.md");
    assert.match(await editor.editorText(), /job: 2026-019\s+board: lund-2-lanes/);
  },
};
