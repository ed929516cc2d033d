import assert from "node:assert/strict";
import { spawn } from "node:child_process";

/** Milliseconds a key. */
const SPEEDS = [20, 50, 100];
/** Runs at each speed; MENDLOG_RUNS=20 for a long look. Each run is a new log, and the kinds of table take turns. */
const RUNS = Number(process.env.MENDLOG_RUNS ?? 1);
/** As they are read off the meter; the last is left by Enter like the others. */
const DIGITS = "558 574 583 569 577 572 0 568 579 571 584 566 580 312".split(" ");
const READINGS = DIGITS.map((digits) => (digits === "0" ? "0" : `0.${digits} V`));
const CROSSINGS = "ok ok no ok ok ok ok no ok ok ok no ok ok".split(" ");
const EMPTY = DIGITS.map(() => "");
/** Keys for a chip's table, its readings and the Enter behind each. */
const MOST_KEYS = 2 + DIGITS.join("").length + DIGITS.length;
/** Milliseconds between two keys of a person who undoes. */
const UNDO_GAP = 60;

const head = (board) => `---\nmendlog: 1\nboard: ${board}\n---\n\n`;
const cellsOf = (line) => line.split("|").map((cell) => cell.trim());
const linesOf = (text, beginning) => text.split("\n").filter((line) => beginning.test(line));

/** A board with a row of fourteen switches. */
const LINES = ["ROW_1", "ROW_2", ...EMPTY.map((_, i) => `COL_${i + 1}`)];
const GRID = `mendlog-board: 1
id: grid
title: Grid
source: invented for these tests
parts:
  J1: { pins: ${LINES.length} }
nets:
${LINES.map((net, i) => `  ${net}: [J1.${i + 1}]`).join("\n")}
matrices:
  switches:
    kind: switch
    title: Switches
    rows: [ROW_1, ROW_2]
    columns: [${LINES.slice(2).join(", ")}]
`;

const KINDS = {
  long: {
    text: `${head("sample")}## Diode check\n\n`,
    typed: DIGITS,
    want: READINGS,
    /** A letter and Enter: the chip that has no readings yet comes first. */
    begin: async (editor) => {
      await editor.typeText("U");
      await editor.complete({ ask: false });
      await editor.acceptCompletion("U14 readings table");
      return 2;
    },
    read: (text) => linesOf(text, /^\| U14 /).map((line) => cellsOf(line)[3]),
  },
  wide: {
    text: `${head("sample")}## Diode check\n\n`,
    typed: DIGITS,
    want: READINGS,
    begin: (editor) => inserted(editor, "Switch matrix"),
    read: (text) => linesOf(text, /^\| \d/).map((line) => cellsOf(line)[2]),
  },
  matrix: {
    text: `${head("grid")}## Switch matrix\n\n`,
    typed: CROSSINGS,
    want: CROSSINGS,
    begin: (editor) => inserted(editor, "Switches"),
    read: (text) => linesOf(text, /^\| 1 /).flatMap((line) => cellsOf(line).slice(2, -1)),
  },
};

async function inserted(editor, name) {
  await editor.command("Mendlog: Insert a table of readings");
  await editor.until("the tables to choose from", async () =>
    (await editor.listed()).some((row) => row.startsWith(name)),
  );
  await editor.typeText(name);
  await editor.until(`${name} alone`, async () => ((await editor.listed())[0] ?? "").startsWith(name));
  await editor.press("Enter");
}

/** A process that keeps a core busy, ended with the scenario and by itself after a while. */
const busy = () =>
  spawn(process.execPath, [
    "-e",
    `const end = Date.now() + ${60_000 * (3 * RUNS + 1)}; while (Date.now() < end);`,
  ]);

export default {
  title:
    "fourteen readings by digits and Enter are each in their own cell at any speed, and are undone one by one",
  files: { "boards/grid.board.yaml": GRID },
  // What was saved makes room for the next.
  settings: { "workbench.editor.limit.enabled": true, "workbench.editor.limit.value": 2 },
  alone: true,
  timeout: 300_000 + 60_000 * (RUNS - 1) * SPEEDS.length,
  async run(editor, { say }) {
    const faults = [];
    const passed = { long: 0, wide: 0, matrix: 0 };
    const other = busy();
    try {
      for (const [s, delay] of SPEEDS.entries()) {
        for (let run = 0; run < RUNS; run += 1) {
          const kind = Object.keys(KINDS)[(run + s) % 3];
          const name = `${kind}-${delay}-${run + 1}`;
          try {
            const keys = await oneRun(editor, KINDS[kind], delay, name);
            passed[kind] += 1;
            if (kind === "long" && run < 3) say(`${delay} ms a key: ${keys} keys, the table included`);
          } catch (error) {
            faults.push(`${name}: ${error.message}`);
            await editor.screenshot(`failed-run-${name}`);
            if (RUNS === 1) throw error;
          }
        }
      }
    } finally {
      other.kill();
    }
    say(`${RUNS * SPEEDS.length - faults.length} of ${RUNS * SPEEDS.length} runs: ${JSON.stringify(passed)}`);
    assert.deepEqual(faults, []);
  },
};

async function oneRun(editor, { text, typed, want, begin, read }, delay, name) {
  const log = `logs/${name}.md`;
  editor.writeFile(log, text);
  await editor.openFile(log);
  await editor.awake();
  await editor.press("Control+End");
  const shown = async () => read(await editor.editorText()).join(" / ");
  let keys = await begin(editor);
  await editor.until("the table", async () => (await shown()) === EMPTY.join(" / "));
  for (const value of typed) {
    await editor.typeText(value, { delay });
    await editor.press("Enter");
    keys += value.length + 1;
    await editor.page.waitForTimeout(delay);
  }
  let now = "";
  await editor
    .until("every reading in its own cell", async () => {
      now = await shown();
      return now === want.join(" / ");
    })
    .catch((error) => {
      throw new Error(`${error.message}: ${now}`);
    });
  const rows = linesOf(await editor.editorText(), /^\|/);
  assert.equal(new Set(rows.map((row) => row.length)).size, 1, rows.join("\n"));
  if (name.endsWith("-1")) await editor.screenshot(`readings-${name}`);
  for (let left = want.length - 1; left >= 0; left -= 1) {
    await editor.press("Control+Z");
    const rest = [...want.slice(0, left), ...EMPTY.slice(left)].join(" / ");
    await editor
      .until(`${left} readings left`, async () => {
        now = await shown();
        return now === rest;
      })
      .catch((error) => {
        throw new Error(`${error.message}: ${now}`);
      });
    await editor.page.waitForTimeout(UNDO_GAP);
  }
  await editor.save();
  if (name.startsWith("long")) assert.ok(keys <= MOST_KEYS, `${keys} keys`);
  return keys;
}
