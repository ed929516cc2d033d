import assert from "node:assert/strict";
import { readdirSync } from "node:fs";

const DIALOG = ".quick-input-widget";
/** Keys, each stroke one, from the palette to the first finding: what it took when this was written, and a few to spare. */
const MOST_KEYS = 75;

export default {
  title:
    "from an empty folder: a board named in words, a chip picked by its number, and the first shorted pin is found, without any file but the log",
  workspace: null,
  files: {},
  async run(editor, { say }) {
    let keys = 0;
    const press = async (key) => {
      keys += 1;
      await editor.press(key);
    };
    const type = async (text) => {
      keys += text.length;
      await editor.typeText(text);
    };
    const input = editor.page.locator(`${DIALOG} input.input`).first();
    const asks = (what) =>
      editor.until(`the question ${what}`, async () =>
        what.test(
          `${await input.getAttribute("placeholder")} ${await editor.page.locator(DIALOG).textContent()}`,
        ),
      );

    // The palette takes a key to open, a few letters and Enter.
    await editor.command("Mendlog: Start a new log");
    keys += 1 + "start a new".length + 1;
    await asks(/What board is it\? Such as/);
    await editor.screenshot("log-alone-1-board");
    await type("Regatta controller");
    await press("Enter");
    for (const what of [/Whose board/, /What does it do wrong/]) {
      await asks(what);
      await press("Enter");
    }
    await editor.until("where to put it", async () =>
      /regatta-controller\.md$/.test(await input.inputValue()),
    );
    await press("Enter");
    await editor.until("the new log", async () =>
      /board: regatta-controller/.test(await editor.editorText()),
    );
    const [name] = readdirSync(editor.folder).filter((each) => each.endsWith(".md"));
    assert.match(name, /^\d{4}-\d\d-\d\d-regatta-controller\.md$/);
    assert.match(editor.readFile(name), /^# Regatta controller$/m);

    // To the heading by its name, and down to the empty line below its caution.
    await press("Control+Shift+O");
    await editor.until("the outline to choose from", async () => (await editor.quickRows()).length > 3);
    await type("Diode");
    await editor.until("the heading", async () => /Diode check/.test((await editor.quickRows())[0] ?? ""));
    await press("Enter");
    await editor.page.waitForSelector(DIALOG, { state: "hidden" });
    for (let line = 0; line < 4; line += 1) await press("ArrowDown");

    await type("U5 7404");
    await editor.until("the chip by its number", async () =>
      (await editor.suggestions()).some((row) => row.startsWith("U5 (7404) readings table")),
    );
    await editor.screenshot("log-alone-2-chip");
    await press("Enter");
    await editor.until("its table", async () => /\| U5 +\| 7404 +\| 1 /.test(await editor.editorText()));
    // Pin 2, an output, is shorted to ground.
    await type("0.571");
    await press("Tab");
    await type("0.002");
    await press("Tab");
    // Of the pin before it, half a reading may be shown for a moment where keys come slowly.
    const found = await editor.waitForProblem(
      ({ code, message }) => code === "diode-out-of-window" && /U5 pin 2/.test(message),
    );
    say(`     ${keys} keys from the palette to the first finding: ${found.message}`);
    await editor.screenshot("log-alone-3-found");
    assert.ok(keys <= MOST_KEYS, `${keys} keys`);

    // The readings go on one below the other, and what is within limits raises nothing.
    for (const reading of ["0.573", "0.568", "0.57", "0.571", "0.001"]) {
      await type(reading);
      await press("Tab");
    }
    await editor.save();
    assert.match(editor.readFile(name), /\| U5 {2}\| +\| 7 {3}\| 0\.001 +\| GND ground · net GND +\|/);
    const all = await editor.problems();
    assert.deepEqual(
      all.filter(({ severity }) => severity !== "info").map(({ code }) => code),
      ["diode-out-of-window"],
    );
    await editor.screenshot("log-alone-4-problems");
  },
};
