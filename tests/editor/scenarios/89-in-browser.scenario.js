import assert from "node:assert/strict";

const LOG = "logs/2026-018-controller.md";

export default {
  title:
    "in an editor that runs in a browser alone the findings come from a worker, and the meter is declined",
  workspace: "../../demo",
  web: true,
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    editor.filterProblems("diode-out-of-window");
    const found = await editor.waitForProblem((it) => it.code === "diode-out-of-window");
    // The board file was read: the message knows the part and its net.
    assert.match(found.message, /U1\d pin \d+ \(.*the board file says/);
    // Logs that are not open, and the memory images they name, come by way of the editor.
    editor.filterProblems("rom-image-differs");
    await editor.waitForProblem((it) => it.file !== LOG && it.code === "rom-image-differs");
    editor.filterProblems("diode-out-of-window");
    await editor.screenshot("in-browser");

    // What is typed is judged at once.
    const place = editor.find(LOG, "1.42");
    await editor.select(place.line, place.column, 4);
    await editor.typeText("0.58");
    await editor.waitForNoProblem((it) => it.file === LOG && it.line === place.line);

    await editor.byKey("mendlog.readMeter");
    await editor.until("the meter declined", async () =>
      (await editor.notifications()).some((text) => /cannot be read from a browser/.test(text)),
    );
    assert.deepEqual(editor.errors, []);
  },
};
