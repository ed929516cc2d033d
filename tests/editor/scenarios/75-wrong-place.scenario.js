import assert from "node:assert/strict";
import { OWN_KEYS } from "../server.js";

/** What each command says where no log is in front; nothing at all where the keys then do what they always do. */
const SAYS = {
  "mendlog.writeReport": /Open the repair log to report on/,
  "mendlog.writeSuspects": /no repair log|Open the repair log whose suspects/,
  "mendlog.insertTable": /Open the repair log that the table is for/,
  "mendlog.pasteColumn": /Put the cursor into a cell of a readings table/,
  "mendlog.readMeter": /Open a repair log and put the cursor|No meter is set up/,
};
const QUIET = Object.keys(OWN_KEYS).filter(
  (id) => !(id in SAYS) && !/restart|next|previous|showServerLog/.test(id),
);

export default {
  title: "commands run by a key of one's own where they do not apply say what is wanted and change nothing",
  async run(editor) {
    await editor.openFile("logs/faulty.md");
    await editor.awake();
    const before = ["logs/faulty.md", "notes.md", "boards/sample.board.yaml"].map((name) =>
      editor.readFile(name),
    );

    const runAll = async (where) => {
      for (const [id, words] of Object.entries(SAYS)) {
        await editor.byKey(id);
        await editor.until(`${id} to speak in ${where}`, async () =>
          (await editor.notifications()).some((text) => words.test(text)),
        );
        assert.equal(
          await editor.page.locator(".quick-input-widget:visible").count(),
          0,
          `${id} asks in ${where}`,
        );
        if (id === "mendlog.writeReport") await editor.screenshot(`wrong-place-${where}`);
        await editor.command("Notifications: Clear All Notifications");
        await editor.page.waitForSelector(".quick-input-widget", { state: "hidden" });
      }
      for (const id of QUIET) await editor.byKey(id);
      assert.deepEqual(await editor.notifications(), [], `quiet commands in ${where}`);
      assert.equal(await editor.page.locator(".tab.dirty").count(), 0, `nothing changed in ${where}`);
    };

    for (const [name, where] of [
      ["notes.md", "plain-markdown"],
      ["boards/sample.board.yaml", "board-file"],
    ]) {
      await editor.openFile(name);
      await runAll(where);
    }
    await editor.command("View: Close All Editors");
    await editor.until("no editor", async () => (await editor.page.locator(".tab").count()) === 0);
    await runAll("no-editor");

    // The server is started anew with nothing in front, and serves the next log.
    await editor.byKey("mendlog.restartServer");
    await editor.openFile("logs/faulty.md");
    await editor.waitForProblem((it) => it.code === "diode-out-of-window");
    assert.deepEqual(
      ["logs/faulty.md", "notes.md", "boards/sample.board.yaml"].map((name) => editor.readFile(name)),
      before,
    );
    assert.deepEqual(editor.errors, []);
  },
};
