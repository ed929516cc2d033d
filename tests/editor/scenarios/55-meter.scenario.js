import assert from "node:assert/strict";
import { simulateInstrument } from "../../support/instrument.js";

const LOG = "logs/meter.md";
const TEXT = `---
mendlog: 1
job: 2026-090
board: sample
received: 2026-03-02
stage: diagnosing
---

## Diode check

| Ref | Pin | Reading | Note |
| --- | --- | ------- | ---- |
| U14 | 1   |         |      |
| U14 | 2   |         |      |
| U14 | 3   |         |      |
`;
const GUIDED = "logs/guided.md";
const NOTICE = ".notifications-toasts .notification-list-item-message";
const STATUS = "#mendlog\\.lastReading, [id$='lastReading']";

/** What the meter sends for one measurement after the other; `undefined` is silence. */
const SENT = ["+5.80120000E-01", "+1.42000000E+00", "+9.90000000E+37"];
/** For the log that the guide leads through. */
const SENT_THERE = ["+5.71000000E-01", "+5.69000000E-01"];

export default {
  title:
    "one key reads a meter on the network into the cell and moves on; what goes wrong is said and loses nothing",
  files: { [LOG]: TEXT, [GUIDED]: TEXT.replace("090", "091") },
  async run(editor) {
    const readings = [...SENT];
    const meter = await simulateInstrument({
      answer: (query) => (query.startsWith("MEAS") ? readings.shift() : undefined),
    });
    try {
      await editor.openFile(LOG);
      await editor.awake();
      await editor.goTo(13, 15);

      // Without an address nothing is asked of anybody.
      await editor.command("Mendlog: Read the meter into this cell");
      await editor.until("word of the missing address", async () =>
        (await editor.page.locator(NOTICE).allTextContents()).some((text) => /No meter is set up/.test(text)),
      );
      await editor.press("Escape");
      await editor.command("Notifications: Clear All Notifications");
      editor.writeFile(
        ".vscode/settings.json",
        JSON.stringify({ "mendlog.meter.address": `127.0.0.1:${meter.port}`, "mendlog.meter.timeout": 1.5 }),
      );
      await editor.openFile(LOG);
      await editor.goTo(13, 15);
      const shows = (text) =>
        editor.until(`"${text}" in the log`, async () => (await editor.editorText()).includes(text));

      await editor.until("the first reading", async () => {
        if (meter.heard.length === 0) await editor.press("Control+Alt+Enter");
        return (await editor.editorText()).includes("0.5801 V");
      });
      assert.deepEqual(meter.heard, ["MEAS:DIOD?"]);
      await editor.press("Control+Alt+Enter");
      await shows("1.420 V");
      await editor.until("a cue that is no colour alone", async () =>
        (await editor.page.locator(STATUS).allTextContents()).some((text) =>
          /▲ 1\.420 V: Out of limits/.test(text),
        ),
      );
      await editor.screenshot("meter-cue");
      await editor.until("the beep", async () => meter.heard.includes("SYST:BEEP"));
      await editor.press("Control+Alt+Enter");
      await shows("OL");
      await editor.save();

      // Under the guide the reading goes where the guide led, and only the guide leads on.
      readings.push(...SENT_THERE);
      await editor.openFile(GUIDED);
      await editor.byKey("mendlog.guide");
      await editor.cursorAt(13, 15);
      await editor.press("Control+Alt+Enter");
      await shows("0.5710 V");
      await editor.until("the guide at the next pin", async () => (await editor.cursor()).line === 14);
      await editor.press("Control+Alt+Enter");
      await shows("0.5690 V");
      await editor.until("the guide at the last pin", async () => (await editor.cursor()).line === 15);
      await editor.screenshot("meter-under-the-guide");
      await editor.press("Escape");
      await editor.save();
      assert.deepEqual(
        editor
          .readFile(GUIDED)
          .split("\n")
          .slice(12, 15)
          .map((row) => row.split("|")[3].trim()),
        ["0.5710 V", "0.5690 V", ""],
      );
      await editor.openFile(LOG, 15, 15);

      // A meter that never answers: the cell stays as it is, and Escape need not be pressed.
      await editor.press("Control+Alt+Enter");
      await editor.until("word of the silence", async () =>
        (await editor.page.locator(NOTICE).allTextContents()).some((text) =>
          /did not answer within 1\.5 s/.test(text),
        ),
      );
      await editor.screenshot("meter-silent");
      await editor.command("Notifications: Clear All Notifications");
      await meter.close();
      await editor.press("Control+Alt+Enter");
      await editor.until("word of the meter that is gone", async () =>
        (await editor.page.locator(NOTICE).allTextContents()).some((text) =>
          /cannot be reached \(ECONNREFUSED\)/.test(text),
        ),
      );
      await editor.save();
      const rows = editor.readFile(LOG).split("\n").slice(12, 15);
      assert.deepEqual(
        rows.map((row) => row.split("|")[3].trim()),
        ["0.5801 V", "1.420 V", "OL"],
      );
    } finally {
      await meter.close();
    }
  },
};
