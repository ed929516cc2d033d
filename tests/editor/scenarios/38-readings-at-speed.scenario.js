import assert from "node:assert/strict";
import { spawn } from "node:child_process";

const LOG = "logs/probing.md";
const HEAD = "---\nmendlog: 1\nboard: sample\n---\n\n## Diode check\n\nU14 at speed.\n";
/** Milliseconds a key. */
const SPEEDS = [20, 50, 100];
/** Runs at each speed; MENDLOG_SPEED_RUNS=20 for a long look. */
const RUNS = Number(process.env.MENDLOG_SPEED_RUNS ?? 1);
/** As they are read off the meter; the last is left by Enter like the others. */
const DIGITS = "558 574 583 569 577 572 0 568 579 571 584 566 580 312".split(" ");
const READINGS = DIGITS.map((digits) => (digits === "0" ? "0" : `0.${digits} V`));
const EMPTY = DIGITS.map(() => "");
/** Milliseconds that a person types on before the table is looked at at all. */
const UNDO_GAP = 60;

/** A process that keeps a core busy, ended with the scenario and by itself after a while. */
const busy = () =>
  spawn(process.execPath, [
    "-e",
    `const end = Date.now() + ${60_000 * (RUNS + 1)}; while (Date.now() < end);`,
  ]);

const readingsIn = (text) =>
  text
    .split("\n")
    .filter((line) => /^\| U14 /.test(line))
    .map((line) => line.split("|")[3].trim());

export default {
  title:
    "fourteen readings by digits and Enter are each in their own cell at any speed, and are undone one by one",
  files: { [LOG]: HEAD },
  alone: true,
  timeout: 300_000 + 60_000 * (RUNS - 1) * SPEEDS.length,
  async run(editor, { say }) {
    await editor.openFile(LOG);
    await editor.awake();
    const shown = async () => readingsIn(await editor.editorText()).join(" / ");
    const other = busy();
    try {
      for (const delay of SPEEDS) {
        for (let run = 0; run < RUNS; run += 1) {
          await editor.press("Control+End");
          let keys = await typed(editor, "\nU14", 50);
          await editor.complete();
          await editor.acceptCompletion("U14 readings table");
          keys += 2;
          await editor.until("the table", async () => (await shown()) === EMPTY.join(" / "));
          for (const digits of DIGITS) {
            keys += await typed(editor, digits, delay);
            await editor.press("Enter");
            keys += 1;
            await editor.page.waitForTimeout(delay);
          }
          await editor.until(`every reading in its own cell at ${delay} ms`, async () => {
            const now = await shown();
            return now === READINGS.join(" / ");
          });
          if (run === 0) {
            await editor.screenshot(`readings-at-${delay}-ms`);
            const rows = (await editor.editorText()).split("\n").filter((line) => line.startsWith("|"));
            assert.equal(new Set(rows.map((row) => row.length)).size, 1, rows.join("\n"));
            say(
              `${delay} ms a key: ${keys} keys for ${DIGITS.length} readings, the table and its list included`,
            );
          }
          for (let left = DIGITS.length - 1; left >= 0; left -= 1) {
            await editor.press("Control+Z");
            const want = [...READINGS.slice(0, left), ...EMPTY.slice(left)].join(" / ");
            await editor.until(`${left} readings left`, async () => (await shown()) === want);
            await editor.page.waitForTimeout(UNDO_GAP);
          }
          // The table and what was typed for it are undone as well, for the next run.
          await editor.until("the log as it was", async () => {
            if (!/^(?:\| )?U14(?! at)/m.test(await editor.editorText())) return true;
            await editor.press("Control+Z");
            return false;
          });
        }
      }
    } finally {
      other.kill();
    }
  },
};

async function typed(editor, text, delay) {
  await editor.typeText(text, { delay });
  return text.length;
}
