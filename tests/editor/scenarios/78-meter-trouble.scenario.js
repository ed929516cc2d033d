import assert from "node:assert/strict";
import { simulateInstrument } from "../../support/instrument.js";
import { assertNoFault } from "../every-command.js";

const LOG = "logs/meter.md";
const OTHER = "notes.md";
const TEXT = `---
mendlog: 1
job: 2026-091
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
const READING = "+5.80120000E-01";
/** Milliseconds between two presses; the editor hides notifications that come faster. */
const PACE = 400;
const SETTINGS = ".vscode/settings.json";

export default {
  title:
    "a meter that fails, and a log that is gone when it answers: each is said, and the reading is kept to be copied",
  files: { [LOG]: TEXT },
  async run(editor) {
    const { page } = editor;
    /** What the meter does with the next question. */
    let does = () => true;
    /** Lets it answer a question that it kept waiting. */
    let answer;
    const meter = await simulateInstrument({
      misbehave: (socket, query) => query.startsWith("MEAS") && does(socket),
    });
    const keeps = (socket) => {
      answer = () => socket.write(`${READING}\n`);
      return true;
    };
    const asked = () => meter.heard.filter((query) => query.startsWith("MEAS")).length;
    const address = (text) =>
      editor.writeFile(
        SETTINGS,
        JSON.stringify({ "mendlog.meter.address": text, "mendlog.meter.timeout": 20 }),
      );
    const press = () => editor.byKey("mendlog.readMeter");
    /** Presses the key and waits until the meter has been asked. */
    const begin = async () => {
      does = keeps;
      const before = asked();
      await press();
      await editor.until("the question at the meter", async () => asked() > before);
    };
    const kept = (why) => new RegExp(`${why}.*so the reading was not written: 0\\.5801 V`);
    const cellIsEmpty = async () => {
      assert.match(await editor.editorText(), /\| U14 \| 1 {3}\| {9}\| {6}\|/);
      assert.equal(await page.locator(".tab.dirty").count(), 0);
      assert.equal(editor.readFile(LOG), TEXT);
    };
    try {
      await editor.openFile(LOG);
      await editor.awake();
      await editor.goTo(13, 15);

      /** A changed setting shows in nothing but the answer, so the key is pressed again until it counts. */
      const pressUntil = async (words) => {
        await editor.until(`word like ${words}`, async () => {
          await press();
          await page.waitForTimeout(PACE);
          return (await editor.notifications()).some((one) => words.test(one));
        });
      };

      // Addresses that lead nowhere.
      address("http://meter/");
      await pressUntil(/"http:\/\/meter\/" is no network address/);
      address("nowhere.invalid");
      await pressUntil(/nowhere\.invalid cannot be reached \((?:ENOTFOUND|EAI_AGAIN)\)/);
      await editor.clearNotifications();
      await cellIsEmpty();

      // Answers that are none.
      does = (socket) => socket.write("<html>\u0007 login:\n");
      address(`127.0.0.1:${meter.port}`);
      await pressUntil(/Nothing was written: the meter sent .*no number/);
      await editor.screenshot("meter-garbage");
      await editor.clearNotifications();
      does = (socket) => socket.end("+5.8");
      await press();
      await editor.told("the meter that hung up", /closed the connection before it answered/);
      does = (socket) => socket.write("1".repeat(9000));
      await press();
      await editor.told("the meter without an end", /is not a meter: it sent thousands/);
      await cellIsEmpty();

      // The key pressed twice asks once, and Escape ends it without a word.
      await begin();
      const once = asked();
      await press();
      await editor.until("the spinning line below", async () =>
        (await page.locator("[id$='lastReading']").allTextContents()).some((text) => /Measuring/.test(text)),
      );
      await editor.byKey("mendlog.stopMeter");
      await page.waitForSelector("[id$='lastReading']", { state: "hidden" });
      assert.equal(asked(), once);
      assert.deepEqual(await editor.notifications(), []);
      await cellIsEmpty();

      // The cursor elsewhere, and a line typed above: the reading goes where it was asked for.
      await begin();
      await editor.goTo(8, 1);
      await editor.typeText("words\n");
      answer();
      await editor.until("the reading in its row", async () =>
        /\| U14 \| 1 {3}\| 0\.5801 V/.test(await editor.editorText()),
      );
      await editor.command("File: Revert File");
      await editor.until("the log as it was", async () => (await page.locator(".tab.dirty").count()) === 0);
      await editor.goTo(13, 15);

      // Its row typed in.
      await begin();
      await editor.typeText("9");
      answer();
      await editor.told("the row that changed", kept("The row changed while the meter was measuring"));
      await editor.press("Control+Z");
      await editor.until("the log as it was", async () => (await page.locator(".tab.dirty").count()) === 0);

      // Another tab in front, then the log closed for good.
      await begin();
      await editor.openFile(OTHER);
      answer();
      await editor.told("the log that is not in front", kept("The log is no longer in front"));
      await editor.openFile(LOG, 13, 15);
      await begin();
      await editor.byKey("workbench.action.closeActiveEditor");
      await editor.until(
        "the log closed",
        async () => (await page.locator(`.tab[data-resource-name="meter.md"]`).count()) === 0,
      );
      answer();
      await editor.until("the log that is closed", async () =>
        (await editor.notifications()).some((one) =>
          /(?:was closed while|no longer in front).*so the reading was not written/.test(one),
        ),
      );
      await editor.screenshot("meter-log-closed");

      // A reading that waits to be copied does not stand in the way of the next; read-only by the time it answers.
      await editor.openFile(LOG, 13, 15);
      await begin();
      await editor.clearNotifications();
      await editor.byKey("workbench.action.files.setActiveEditorReadonlyInSession");
      await page.waitForSelector('.tab.active .tab-label[aria-label*="Read-only"]');
      answer();
      await editor.until("the log that is read-only", async () =>
        (await editor.notifications()).some((one) => kept("The log is read-only").test(one)),
      );
      await editor.screenshot("meter-read-only");
      await cellIsEmpty();
      assertNoFault(editor);
    } finally {
      await meter.close();
    }
  },
};
