import assert from "node:assert/strict";
import { spawn } from "node:child_process";

/** Milliseconds a key. */
const SPEEDS = [20, 50, 100];
/** Runs of each way to type at each speed; MENDLOG_RUNS=20 for a long look. Without it each way has a speed and a kind of table. */
const RUNS = Number(process.env.MENDLOG_RUNS ?? 1);
/** As they are read off the meter. What may still go on is left by Enter. */
const DIGITS = "558 574 583 569 577 572 0 568 579 571 584 566 580 312".split(" ");
const READINGS = DIGITS.map((digits) => (digits === "0" ? "0" : `0.${digits} V`));
const EMPTY = DIGITS.map(() => "");
/** Keys for fourteen readings of a chip at most, its table included. */
const MOST_KEYS = 53;
/** Milliseconds between two keys of a person who undoes. */
const UNDO_GAP = 60;
const CORES = 2;

const HEAD = "---\nmendlog: 1\nboard: sample\n---\n\n## Diode check\n\n";
const cellsOf = (line) => line.split("|").map((cell) => cell.trim());
const linesOf = (text, beginning) => text.split("\n").filter((line) => beginning.test(line));
const keysOf = (digits) => [...digits, ...(digits === "0" ? ["Enter"] : [])];

/** The keys of all readings, as one who never presses more than is needed, and as others do. */
const WAYS = {
  alone: DIGITS.flatMap(keysOf),
  habit: DIGITS.flatMap((digits) => [...digits, "Enter"]),
  // The last digit of one reading is wrong, the middle one of another, and of a third it is seen a digit later.
  mistyped: DIGITS.flatMap((digits, i) => {
    if (i === 2) return [..."589", "Backspace", "3"];
    if (i === 4) return [..."58", "Backspace", ..."77"];
    if (i === 8) return [..."578", "5", "Backspace", "Backspace", "9"];
    return keysOf(digits);
  }),
};

const KINDS = {
  long: {
    text: HEAD,
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
    text: HEAD,
    begin: (editor) => inserted(editor, "Switch matrix"),
    read: (text) => linesOf(text, /^\| \d/).map((line) => cellsOf(line)[2]),
  },
  /** Only its first row is there. */
  grown: {
    text: `${HEAD}| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n| U14 | 1   |         |      |`,
    begin: async (editor) => {
      await editor.goTo(10, 15);
      await editor.tableKeys();
    },
    read: (text) => {
      const read = linesOf(text, /^\| U14 /).map((line) => cellsOf(line)[3]);
      return [...read, ...EMPTY.slice(read.length)];
    },
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

/** A process that keeps a core busy, ended with the scenario, and by itself where that is gone. */
const busy = () => spawn(process.execPath, ["-e", `while (process.ppid === ${process.pid});`]);

export default {
  title:
    "fourteen readings by digits alone are each in their own cell at any speed, also with Enter out of habit and with slips, and are undone one by one",
  // What was saved makes room for the next.
  settings: {
    "mendlog.typing.advance": "whenComplete",
    "workbench.editor.limit.enabled": true,
    "workbench.editor.limit.value": 2,
  },
  alone: true,
  timeout: 300_000 + 60_000 * RUNS * SPEEDS.length * Object.keys(WAYS).length,
  async run(editor, { say }) {
    const faults = [];
    const others = Array.from({ length: CORES }, busy);
    let turn = 0;
    let runs = 0;
    try {
      for (const [w, way] of Object.keys(WAYS).entries()) {
        const passed = { long: 0, wide: 0, grown: 0 };
        for (let run = 0; run < RUNS; run += 1) {
          for (const delay of RUNS === 1 ? [SPEEDS[w]] : SPEEDS) {
            const kind = Object.keys(KINDS)[turn % 3];
            // Each speed meets each kind of table.
            turn += RUNS > 1 && delay === SPEEDS.at(-1) ? 2 : 1;
            runs += 1;
            const name = `${kind}-${way}-${delay}-${run + 1}`;
            try {
              const keys = await oneRun(editor, KINDS[kind], WAYS[way], delay, name);
              passed[kind] += 1;
              if (kind === "long" && run < 3)
                say(`${way}, ${delay} ms a key: ${keys} keys, the table included`);
            } catch (error) {
              faults.push(`${name}: ${error.message}`);
              await editor.screenshot(`failed-run-${name}`);
              if (RUNS === 1) throw error;
            }
          }
        }
        say(`${way}: ${JSON.stringify(passed)}`);
      }
    } finally {
      for (const other of others) other.kill();
    }
    say(`${runs - faults.length} of ${runs} runs`);
    assert.deepEqual(faults, []);
  },
};

async function oneRun(editor, { text, begin, read }, typed, delay, name) {
  const log = `logs/${name}.md`;
  editor.writeFile(log, text);
  await editor.openFile(log);
  await editor.awake();
  await editor.press("Control+End");
  const shown = async () => read(await editor.editorText()).join(" / ");
  const begun = (await begin(editor)) ?? 0;
  await editor.until("the table", async () => (await shown()) === EMPTY.join(" / "));
  for (const key of typed) {
    await editor.press(key);
    await editor.page.waitForTimeout(delay);
  }
  const shows = async (what, wanted) => {
    let now = "";
    await editor
      .until(what, async () => {
        now = await shown();
        return now === wanted;
      })
      .catch((error) => {
        throw new Error(`${error.message}: ${now}`);
      });
  };
  await shows("every reading in its own cell", READINGS.join(" / "));
  const rows = linesOf(await editor.editorText(), /^\|/);
  assert.equal(new Set(rows.map((row) => row.length)).size, 1, rows.join("\n"));
  assert.equal(rows.length, 2 + READINGS.length, "no row too many");
  if (name.endsWith("-1")) await editor.screenshot(`alone-${name}`);
  for (let left = READINGS.length - 1; left >= 0; left -= 1) {
    await editor.press("Control+Z");
    await shows(`${left} readings left`, [...READINGS.slice(0, left), ...EMPTY.slice(left)].join(" / "));
    await editor.page.waitForTimeout(UNDO_GAP);
  }
  await editor.save();
  const keys = begun + typed.length;
  if (name.startsWith("long-alone")) assert.ok(keys <= MOST_KEYS, `${keys} keys`);
  return keys;
}
