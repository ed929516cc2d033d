import assert from "node:assert/strict";
import { appendFileSync, readdirSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import { createAsker } from "../asking.js";
import { assertNoFault } from "../every-command.js";

const LOG = "logs/asked.md";
const TEXT = `---
mendlog: 1
job: 2026-092
board: sample
received: 2026-03-02
stage: diagnosing
---

## Diode check

| Ref | Pin | Reading |
| --- | --- | ------- |
| U14 | 1   | 0.58    |
| U14 | 2   | 1.42    |
| U15 | 3   |         |
`;
const METERED = "logs/metered.md";
const EMPTY = TEXT.replace("092", "093").replace(
  /\| U14[\s\S]*$/,
  "| U14 | 1   |         |\n| U14 | 2   |         |\n| U14 | 3   |         |\n",
);
/** Line and column of the first empty cell. */
const CELL = [13, 15];
const READINGS = "readings.txt";
/** There before anybody asks: never a reading of this log. */
const STALE = "+7.77000000E-01\n";
const SETTINGS = ".vscode/settings.json";
const METER = { "mendlog.meter.file": READINGS, "mendlog.meter.timeout": 6 };
const ROWS = ".pane-body .monaco-list-row";
/** Milliseconds between two presses; the editor hides notifications that come faster. */
const PACE = 400;

export default {
  title:
    "an assistant's three tools answer from the log and change nothing; what a program appends to a file goes into the cell",
  asker: true,
  // A server of its own has to start: 127 s where the machine is shared.
  timeout: 300_000,
  files: { [LOG]: TEXT, [METERED]: EMPTY, [READINGS]: STALE },
  settings: METER,
  async run(editor) {
    await askTools(editor);
    await readFromFile(editor);
    assertNoFault(editor);
  },
};

async function askTools(editor) {
  const { page } = editor;
  const ask = createAsker(editor);
  const readings = (input) => ({ tool: "mendlog_readings", input });
  const judge = (input) => ({ tool: "mendlog_judge", input });
  const next = (input) => ({ tool: "mendlog_next", input });
  const before = everyFile(editor.folder);

  // No log is open: one that is named is read all the same.
  const first = await ask(readings({ log: LOG }), readings({}), readings({ log: LOG, ref: "u15" }));
  const ours = first.tools.filter(({ tags }) => tags.includes("mendlog")).map(({ name }) => name);
  assert.deepEqual(ours.sort(), ["mendlog_judge", "mendlog_next", "mendlog_readings"]);
  const [all, inFront, ofOne] = first.answers;
  assert.equal(all.log, LOG);
  assert.equal(all.total, 2);
  assert.equal(all.next, undefined);
  const lines = TEXT.split("\n");
  for (const { line, reading, of } of all.readings) {
    assert.match(lines[line - 1], new RegExp(`\\| ${of.ref} +\\| ${of.pin} +\\| ${reading}`));
  }
  const out = all.readings.find(({ reading }) => reading === "1.42");
  assert.equal(out.verdict, "Out of limits");
  assert.match(out.sentence, /1\.42 V/);
  assert.equal(out.procedure, "Diode check");
  assert.match(inFront.error, /no such repair log/);
  assert.equal(ofOne.total, 0);
  assert.equal(await page.locator(".tab").count(), 0, "nothing is opened for it");

  // The one in front, as it is typed and not as it was saved.
  await editor.openFile(LOG);
  await editor.awake();
  const cell = editor.find(LOG, "0.58");
  await editor.select(cell.line, cell.column, 4);
  await editor.typeText("0.61");
  await editor.changed();
  const typed = await ask(readings({ ref: "U14" }));
  assert.deepEqual(
    typed.answers[0].readings.map(({ reading }) => reading),
    ["0.61", "1.42"],
  );
  await editor.command("File: Revert File");
  await editor.until("the log as it was", async () => (await page.locator(".tab.dirty").count()) === 0);

  // What stands in no log yet, and what no log can be.
  const table = { procedure: "Diode check" };
  const { answers } = await ask(
    judge({
      ...table,
      readings: [
        { ref: "U14", pin: "2", value: "1.42 V" },
        { ref: "U14", pin: "1", value: "0.58" },
      ],
    }),
    judge({ ...table, readings: [] }),
    judge({ procedure: "Poetry", readings: [{ value: "0.58" }] }),
    next({}),
    readings({ log: "notes.md" }),
    next({ log: "../elsewhere.md" }),
    readings({ log: join(editor.folder, LOG) }),
  );
  const [judged, none, noTable, told, ...refused] = answers;
  assert.deepEqual(
    judged.readings.map(({ verdict }) => verdict === "Out of limits"),
    [true, false],
  );
  for (const { sentence } of judged.readings) assert.doesNotMatch(sentence, /\bproves? .*good\b/i);
  assert.match(none.reason, /no reading to judge/);
  assert.match(noTable.reason, /under "Poetry"/);
  for (const { error } of refused) assert.match(error, /no such repair log/);

  // What it tells of the suspects is what the view shows.
  assert.equal(told.log, LOG);
  assert.ok(told.suspects.length > 0);
  await editor.byKey("mendlog.showSuspects");
  const rows = () =>
    page.$$eval(ROWS, (each) => each.map((row) => (row.textContent ?? "").replaceAll("\u00a0", " ")));
  for (const { name, share } of told.suspects)
    await editor.until(`${name} in the view`, async () =>
      (await rows()).some((row) => row.startsWith(`${share}: ${name}`)),
    );
  if (told.next)
    await editor.until("the next reading in the view", async () =>
      (await rows()).some((row) => row.startsWith(told.next.action)),
    );
  await editor.screenshot("assistants-suspects");

  assert.deepEqual(everyFile(editor.folder), before, "the tools only read");
  assert.equal(await page.locator(".tab.dirty").count(), 0);
  assert.deepEqual(await editor.notifications(), []);
}

async function readFromFile(editor) {
  const { page } = editor;
  const append = (text) => appendFileSync(join(editor.folder, READINGS), text);
  const status = () => page.locator("[id$='lastReading']").allTextContents();
  const measures = async () => (await status()).some((text) => /Measuring/.test(text));
  const press = () => editor.byKey("mendlog.readMeter");
  /** Until it is waited for a reading: a key pressed meanwhile asks no second time. */
  const begin = (key = press) =>
    editor.until("the wait for a reading", async () => {
      if (await measures()) return true;
      await key();
      await page.waitForTimeout(PACE);
      return measures();
    });
  const shows = (text) =>
    editor.until(`"${text}" in the log`, async () => (await editor.editorText()).includes(text));

  await editor.openFile(METERED, ...CELL);
  await begin(() => editor.press("Control+Alt+Enter"));
  append("+5.80120000E-01\n");
  await shows("0.5801 V");
  await editor.until("the next pin", async () => (await editor.cursor()).line === CELL[0] + 1);

  // An empty line is no reading, and a line may end as other systems have it.
  await begin();
  append("\n+1.42000000E+00\r\n");
  await shows("1.420 V");
  await editor.until("a cue that is no colour alone", async () =>
    (await status()).some((text) => /▲ 1\.420 V: Out of limits/.test(text)),
  );
  await editor.screenshot("meter-file-cue");
  await begin();
  append("+9.90000000E+37\n");
  await shows("OL");
  await editor.save();
  const filled = editor.readFile(METERED);
  assert.deepEqual(
    filled
      .split("\n")
      .slice(CELL[0] - 1)
      .slice(0, 3)
      .map((row) => row.split("|")[3].trim()),
    ["0.5801 V", "1.420 V", "OL"],
  );

  // Nothing comes, the file goes, and paths that lead out: each is said, and the log keeps what it has.
  await editor.openFile(METERED, ...CELL);
  await begin();
  await editor.told("the silence", /Nothing was appended to readings\.txt within 6 s\. Nothing was written/);
  rmSync(join(editor.folder, READINGS));
  await press();
  await editor.told("the file that is gone", /Readings cannot be taken from readings\.txt \(ENOENT\)/);
  for (const [path, words] of [
    ["../elsewhere.txt", /\.\.\/elsewhere\.txt lies outside the workspace/],
    [join(editor.folder, READINGS), /is a whole path among the workspace's settings/],
  ]) {
    editor.writeFile(SETTINGS, JSON.stringify({ ...METER, "mendlog.meter.file": path }));
    // A changed setting shows in nothing but the answer.
    await editor.until(`word like ${words}`, async () => {
      await press();
      await page.waitForTimeout(PACE);
      return (await editor.notifications()).some((one) => words.test(one));
    });
    await editor.screenshot(`meter-file-${path.startsWith(".") ? "outside" : "whole-path"}`);
    await editor.clearNotifications();
  }
  assert.equal(await page.locator(".tab.dirty").count(), 0);
  assert.equal(editor.readFile(METERED), filled);
}

/** Every file of a folder but the editor's own and those that the questions come in, with its size and its time. */
function everyFile(folder) {
  return readdirSync(folder, { recursive: true })
    .map(String)
    .filter((name) => !/^\.(?:vscode|asker)\b/.test(name))
    .map((name) => [name, statSync(join(folder, name))])
    .filter(([, stat]) => stat.isFile())
    .sort(([a], [b]) => a.localeCompare(b))
    .map(([name, { size, mtimeMs }]) => [name, size, mtimeMs]);
}
