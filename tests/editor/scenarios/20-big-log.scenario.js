import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { bigLog } from "../../fixtures/big-log.js";

const BIG = "logs/big.md";
const PLAIN = "logs/plain.md";
const SMALL = "logs/small.md";
const LINES = 1_200;
/**
 * Two rows: 46 characters with a line break among them. Each run's last digits are its own, see mark(). The letter among
 * them is a slip that no later reading settles.
 */
const row = (mark) => `\n| U14 | 3 | 0.571 | again |\n| U14 | 4 | 1.O${mark}`;
const mark = (run) => `9${run}7`;
const MOST_BLOCKED = 250;
const MOST_TIMES_SLOWER = 4;
const SLOWEST = 3_000;

export default {
  title: "typing at speed in the middle of a log of over 1,000 lines and 40 tables",
  workspace: "../../demo",
  alone: true,
  async run(editor, { repository, say }) {
    const { parse } = createRequire(join(repository, "package.json"))("yaml");
    const board = parse(readFileSync(join(editor.folder, "boards/regatta-controller.board.yaml"), "utf8"));
    const text = bigLog({ lines: LINES, board, trouble: 0 });
    const tables = text.match(/^\|[-|]+\|$/gm)?.length ?? 0;
    assert.ok(text.split("\n").length >= 1_000 && tables >= 40, `${tables} tables`);
    editor.writeFile(BIG, text);
    // The same text for the editor alone, and a log of one table: what the machine takes anyway.
    editor.writeFile(PLAIN, text.replace("mendlog: 1", "notes: 1"));
    const head = text.slice(0, text.indexOf("\n## "));
    editor.writeFile(SMALL, `${head}\n## Diode check\n\n${diodeTable(text)}\n`);

    await editor.awake();
    editor.filterProblems("1.O9");
    assert.deepEqual(await editor.problems(), []);
    const idle = await typeInto(editor, PLAIN, 1, false);
    const small = await typeInto(editor, SMALL, 2, true);
    const big = await typeInto(editor, BIG, 3, true);
    say(`${text.split("\n").length} lines, ${tables} tables, ${row(mark(3)).length} characters at once`);
    say(
      `last key to finding shown: ${big.shown} ms; in a log of one table ${small.shown} ms, ratio ${ratio(big.shown, small.shown)}`,
    );
    say(
      `longest the page was blocked: ${big.blocked} ms; in the same text that is no log ${idle.blocked} ms`,
    );
    assert.ok(
      big.shown < SLOWEST && big.shown < MOST_TIMES_SLOWER * Math.max(small.shown, 250),
      `${big.shown} ms`,
    );
    assert.ok(big.blocked < Math.max(MOST_BLOCKED, 3 * idle.blocked), `${big.blocked} ms`);
  },
};

const ratio = (a, b) => (a / b).toFixed(2);

/** A diode check's table, one row a pin. */
const TABLE = /\| Ref +\| Pin +\| Reading +\|.*\n\|-.*\n(?:\|.*\n)+/g;

const diodeTable = (text) => text.match(TABLE)[0].trimEnd();

/**
 * Types the rows behind a diode check's table in the middle of the file, saves, and compares every character.
 * @returns {Promise<{ shown: number, blocked: number }>} milliseconds from the last key to the finding in the
 *   Problems panel, and the longest gap between two frames while typing and until then
 */
async function typeInto(editor, name, run, judged) {
  const before = editor.readFile(name);
  const middles = [...before.matchAll(TABLE)].map((it) => it.index + it[0].length - 1);
  const at = middles.find((end) => end >= before.length / 2) ?? middles.at(-1);
  await editor.openFile(name);
  await editor.goTo(before.slice(0, at).split("\n").length);
  await editor.press("End");

  const typed = row(mark(run));
  await editor.page.evaluate(watch, `1.O${mark(run)}`);
  for (const character of typed) {
    await (character === "\n" ? editor.press("Enter") : editor.page.keyboard.press(character));
  }
  if (judged) {
    await editor.until("the finding", () => editor.page.evaluate(() => window.watched.seen > 0));
  } else await editor.page.waitForTimeout(500);
  const { seen, lastKey, gap } = await editor.page.evaluate(() => {
    window.watched.over = true;
    return window.watched;
  });
  await editor.save();
  // A row that is left is put in line with its table; nothing else may change.
  const words = (written) => written.replace(/ +/g, " ");
  assert.equal(
    words(editor.readFile(name)),
    words(before.slice(0, at) + typed + before.slice(at)),
    "what was typed is what stands",
  );
  return { shown: Math.round(seen - lastKey), blocked: Math.round(gap) };
}

/** Runs in the page: looks at every frame for a problem that quotes the text, and notes the longest gap between two. */
function watch(text) {
  const watched = { seen: 0, lastKey: 0, gap: 0, over: false };
  window.watched = watched;
  document.addEventListener("keydown", () => (watched.lastKey = performance.now()), { capture: true });
  let last = performance.now();
  const look = (now) => {
    watched.gap = Math.max(watched.gap, now - last);
    last = now;
    if (!watched.seen) {
      const rows = document.querySelectorAll(".markers-panel .marker-message");
      if ([...rows].some((it) => it.textContent?.includes(text))) watched.seen = performance.now();
    }
    if (!watched.seen && !watched.over) requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}
