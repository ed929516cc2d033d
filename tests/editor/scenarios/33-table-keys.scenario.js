import assert from "node:assert/strict";

const LOG = "logs/probing.md";
const FIXED = "logs/fixed.md";
const HEAD = "---\nmendlog: 1\nboard: sample\n---\n\n";
const TABLE = "## Diode check\n\n| Pin | U14   | U15   |\n|-----|-------|-------|\n| 1   |       |       |\n";
const PROSE = "\n## Shopping\n\n| What | Much |\n|------|------|\n| wire | 1 m  |\n";

/** A table somebody began to fill in, with no stops of a snippet in it. */
const BEGUN = "logs/begun.md";
const BEGUN_ROWS = [1, 2, 3, 4, 5, 6].map((pin) => `| U14 | ${pin}   |         |      |\n`);
const BEGUN_TEXT = `${HEAD}## Diode check\n\n| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n${BEGUN_ROWS.join("")}`;
const CHIP = "logs/chip.md";
const WORDS = "logs/words.md";
/** Milliseconds a key, less than any answer takes. */
const AT_ONCE = 20;
/** Digits as they are read off the meter, what they stand for, and the list where they may be several readings. */
const DIGITS = "logs/digits.md";
const DIGITS_HEAD = `${HEAD}## Diode check\n\n| Pin | U14      |\n|-----|----------|\n`;
const DIGITS_TYPED = [
  ["58", "0.58 V", ["0.58 V", "0.058 V"]],
  ["573", "0.573 V"],
  ["1487", "1.487 V"],
];

const readings = (text) =>
  text
    .split("\n")
    .filter((line) => /^\| U14 /.test(line))
    .map((line) => line.split("|")[3].trim())
    .join("/");

export default {
  title:
    "Enter, Tab and Shift+Tab walk the cells of a readings table however it was begun, and are themselves anywhere else",
  files: {
    [LOG]: HEAD + TABLE + PROSE,
    [FIXED]: HEAD + TABLE,
    [BEGUN]: BEGUN_TEXT,
    [CHIP]: `${HEAD}## Diode check\n\n`,
    [WORDS]: `${HEAD}## Work\n\n`,
    [DIGITS]: DIGITS_HEAD,
  },
  settings: { "files.readonlyInclude": { "**/fixed.md": true } },
  timeout: 300_000,
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    const { line } = editor.find(LOG, "| 1   |");
    await editor.goTo(line, 9);
    await editor.tableKeys();
    await editor.typeText("0.58");
    await editor.press("Tab");
    await editor.until("the next cell", async () => (await editor.cursor()).column > 15);
    await editor.typeText("0.57");
    await editor.press("Tab");
    await editor.until("the next row", async () => (await editor.cursor()).line === line + 1);
    await editor.press("Shift+Tab");
    await editor.until("the cell before", async () => (await editor.cursor()).column < 9);
    await editor.press("Shift+Tab");
    await editor.until("the row before", async () => (await editor.cursor()).line === line);
    await editor.screenshot("table-keys");
    await editor.save();
    assert.ok(editor.readFile(LOG).includes("\n| 2   |"), editor.readFile(LOG));

    // In a table that is none of readings both keys are what they always are.
    const wire = editor.find(LOG, "| wire | 1 m  |");
    await editor.goTo(wire.line);
    await editor.press("End");
    await editor.press("Enter");
    await editor.cursorAt(wire.line + 1, 1);
    await editor.press("Tab");
    await editor.until("a tab", async () => (await editor.cursor()).column > 1);

    // Nothing is written into a document that cannot be written, and the editor says so.
    await editor.openFile(FIXED);
    await editor.goTo(10, 9);
    await editor.tableKeys();
    await editor.press("Enter");
    await editor.until("word of it", async () =>
      /read-only/.test((await editor.page.textContent("body")) ?? ""),
    );
    await editor.screenshot("table-keys-read-only");
    await editor.command("Mendlog: Go to the next row of this table");
    await editor.until("word of it from the command", async () =>
      (await editor.notifications()).some((text) => /read-only, so nothing was written/.test(text)),
    );
    assert.equal(editor.readFile(FIXED), HEAD + TABLE);
    await editor.clearNotifications();

    await digits(editor);
    await begunTable(editor);
    await clicked(editor);
    await otherSnippet(editor);
  },
};

/** Digits become the reading they stand for, and are offered where they may be several. */
async function digits(editor) {
  await editor.openFile(DIGITS);
  await editor.goTo(DIGITS_HEAD.split("\n").length - 1);
  await editor.press("End");
  await editor.tableKeys();
  await editor.press("Enter");
  for (const [i, [typed, , list]] of DIGITS_TYPED.entries()) {
    await editor.until(`pin ${i + 1}`, async () => (await editor.editorText()).includes(`| ${i + 1}   |`));
    await editor.typeText(typed, { delay: 60 });
    if (list) {
      const offered = await editor.until("the readings in the list", async () => {
        const rows = await editor.suggestions();
        return rows[0]?.startsWith(list[0]) && rows;
      });
      assert.deepEqual(
        offered.map((row) => row.split("  ")[0].trim()),
        list,
      );
      await editor.screenshot("digits-offered");
    }
    await editor.press("Enter");
  }
  // What is a reading as it stands is taken as it stands.
  await editor.until("pin 4", async () => (await editor.editorText()).includes("| 4   |"));
  await editor.typeText("0.6", { delay: 60 });
  await editor.press("Enter");
  await editor.until("pin 5", async () => (await editor.editorText()).includes("| 5   |"));
  await editor.save();
  const rows = editor.readFile(DIGITS).slice(DIGITS_HEAD.length).split("\n");
  assert.deepEqual(
    rows.slice(0, 5).map((row) => row.split("|").map((cell) => cell.trim())),
    [
      ...DIGITS_TYPED.map(([, reading], i) => ["", String(i + 1), reading, ""]),
      ["", "4", "0.6", ""],
      ["", "5", "", ""],
    ],
  );
}

/** Typed faster than any answer comes, in a table that is only taken up again, each reading is in its own cell. */
async function begunTable(editor) {
  await editor.openFile(BEGUN, 10, 15);
  await editor.tableKeys();
  for (const typed of ["558", "574", "583", "569", "577"]) {
    await editor.typeText(typed, { delay: AT_ONCE });
    await editor.press("Enter");
    await editor.page.waitForTimeout(AT_ONCE);
  }
  const all = "0.558 V/0.574 V/0.583 V/0.569 V/0.577 V/";
  let now = "";
  await editor
    .until("each reading in its cell", async () => {
      now = readings(await editor.editorText());
      return now === all;
    })
    .catch((error) => {
      throw new Error(`${error.message}: ${now}`);
    });
  await editor.save();
  // No other row was touched, and the last is where the cursor waits.
  assert.ok(editor.readFile(BEGUN).endsWith(BEGUN_ROWS.at(-1)));
  assert.equal((await editor.cursor()).line, 15);
}

/** A letter brings up the next chip's table; a click into another of its cells goes on from there. */
async function clicked(editor) {
  await editor.openFile(CHIP);
  await editor.press("Control+End");
  await editor.typeText("U");
  await editor.complete({ ask: false });
  await editor.screenshot("letter-list");
  await editor.acceptCompletion("U14 readings table");
  await editor.until("the table", async () => /\| U14 \| 14 /.test(await editor.editorText()));
  const { line, column } = await editor.until("the cursor in the first reading", async () => {
    const at = await editor.cursor();
    return at.column > "| U14 | 1   |".length && at;
  });
  for (const typed of ["558", "574"]) {
    await editor.typeText(typed);
    await editor.press("Enter");
  }
  const pin9 = line + 8;
  await editor.clickAt(pin9, column);
  await editor.cursorAt(pin9, column);
  await editor.tableKeys();
  for (const typed of ["611", "612"]) {
    await editor.typeText(typed);
    await editor.press("Enter");
  }
  let now = "";
  await editor
    .until("the readings from the click on", async () => {
      now = readings(await editor.editorText());
      return now === "0.558 V/0.574 V///////0.611 V/0.612 V////";
    })
    .catch((error) => {
      throw new Error(`${error.message}: ${now}`);
    });
  await editor.save();
}

/** Between the stops of a snippet that is no table, Enter is a line break. */
async function otherSnippet(editor) {
  await editor.openFile(WORDS);
  await editor.press("Control+End");
  await editor.command("Snippets: Insert Snippet");
  await editor.until("the snippets", async () => (await editor.listed()).some((row) => /^bold/.test(row)));
  await editor.typeText("link");
  await editor.until("one of them", async () => /^link/.test((await editor.listed())[0] ?? ""));
  await editor.press("Enter");
  await editor.until("its text", async () => /\[text\]\(/.test(await editor.editorText()));
  await editor.typeText("first");
  await editor.press("Enter");
  await editor.typeText("second");
  await editor.until("two lines", async () => /^second\]\(/m.test(await editor.editorText()));
  await editor.save();
}
