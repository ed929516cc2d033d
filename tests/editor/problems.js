// The Problems panel as data, read from its rows.

import { isAbsolute, relative } from "node:path";

const PANEL = ".markers-panel";
const FILTER = ".viewpane-filter input";
/** The panel waits a moment before it filters, in milliseconds. */
const FILTER_DELAY = 400;
/** What one turn of the wheel says, in its own units: about five rows, of which the panel draws a dozen. */
const TURN = 240;
/** Readings of a list that changed while it was scrolled through, before it is given up. */
const READINGS = 3;
/** Patience for a list to follow the wheel, in milliseconds: it does at once, or glides when it takes it for a real one. */
const STUCK = 10_000;

/**
 * Every row of the Problems panel, opened first if need be; the editor has the focus afterwards.
 * The panel draws only the rows in sight, so a long list is scrolled through; neither the mouse nor the focus moves.
 * @param {object} page
 * @param {{ command: Function, folder: string, filter?: string }} options `filter` is typed into the panel's own
 *   filter field: a word of the message, a code or a part of a file name
 * @returns {Promise<Array<{ file: string, severity: "error" | "warning" | "info", message: string, source: string,
 *   code: string, line: number, column: number, related: string[] }>>} file relative to the workspace; line and
 *   column 1-based; `related` the texts of the rows below the problem.
 */
export async function readProblems(page, { command, folder, filter }) {
  if (!(await page.locator(PANEL).isVisible())) {
    await command("Problems: Focus on Problems View");
    await page.waitForSelector(PANEL, { timeout: 10_000 });
    await page.keyboard.press("Control+1");
  }
  if (filter !== undefined) await narrow(page, filter);
  for (let again = 1; ; again += 1) {
    const rows = await page.evaluate(scrollThrough, { panel: PANEL, turn: TURN, stuck: STUCK });
    if (isWhole(rows)) return assemble(rows, folder);
    if (again === READINGS) throw new Error("Some rows of the Problems panel were never drawn");
  }
}

/** Whether the rows are those from the first to the last; without any the panel is empty. */
const isWhole = (rows) => rows.every((row, i) => row.index === i) && (rows.at(-1)?.last ?? true);

async function narrow(page, filter) {
  const field = page.locator(`.pane-body-part-of-panel ${FILTER}, .panel ${FILTER}`).first();
  if ((await field.inputValue()) === filter) return;
  await field.fill(filter);
  await page.waitForTimeout(FILTER_DELAY);
  await page.keyboard.press("Control+1");
}

/**
 * Runs in the page: the rows of the list in their order. It is turned to its top and then down to its end by wheel
 * events made here, which it follows before the next line runs: so no other work of the page comes in between, however
 * busy the machine is, and neither mouse nor focus moves. What ends it is a list that does not follow, never a slow one.
 */
async function scrollThrough({ panel, turn, stuck }) {
  const text = (row, selector) =>
    (row.querySelector(selector)?.textContent ?? "").replaceAll("\u00a0", " ").trim();
  const drawn = () =>
    [...document.querySelectorAll(`${panel} .monaco-list-row`)].map((row) => ({
      index: Number(row.getAttribute("data-index")),
      level: Number(row.getAttribute("aria-level")),
      last: row.getAttribute("data-last-element") === "true",
      path: row.querySelector(".monaco-icon-label")?.getAttribute("aria-label") ?? "",
      icon: row.querySelector(".marker-icon")?.className ?? "",
      message: [...row.querySelectorAll(".marker-message")].map((it) => it.textContent ?? "").join("\n"),
      source: text(row, ".marker-source"),
      code: text(row, ".marker-code") || text(row, ".code-link"),
      place: text(row, ".marker-line"),
      whole: (row.textContent ?? "").replaceAll("\u00a0", " ").trim(),
    }));
  const list = document.querySelector(`${panel} .monaco-list-rows`);
  const follow = async (deltaY) => {
    const before = list.style.top;
    // Both axes at once are what a touchpad gives: a list glides after a wheel, and follows a touchpad at once. How
    // far, the editor reads from the older of the two figures, which is counted upwards.
    list.dispatchEvent(
      new WheelEvent("wheel", {
        deltaX: 0.01,
        deltaY,
        wheelDeltaY: -deltaY,
        bubbles: true,
        cancelable: true,
      }),
    );
    const deadline = Date.now() + stuck;
    while (list.style.top === before) {
      if (Date.now() > deadline) throw new Error(`The Problems panel does not scroll on from ${before}`);
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
  };
  const rows = new Map();
  const look = () => {
    const seen = drawn();
    for (const row of seen) rows.set(row.index, row);
    return seen;
  };
  let seen = drawn();
  while (seen.length > 0 && !seen.some((row) => row.index === 0)) {
    await follow(-10 * turn);
    seen = drawn();
  }
  seen = look();
  while (seen.length > 0 && !seen.some((row) => row.last)) {
    await follow(turn);
    seen = look();
  }
  return [...rows.values()].sort((a, b) => a.index - b.index);
}

function assemble(rows, folder) {
  const problems = [];
  let file = "";
  for (const row of rows) {
    if (row.level === 1) {
      file = isAbsolute(row.path) ? relative(folder, row.path) : row.path;
    } else if (row.level === 2) {
      const [line = 0, column = 0] = [...row.place.matchAll(/\d+/g)].map((it) => Number(it[0]));
      const severity = /\b(error|warning|info)\b/.exec(row.icon)?.[1] ?? "hint";
      const { message, source, code } = row;
      problems.push({ file, severity, message, source, code, line, column, related: [] });
    } else {
      problems.at(-1)?.related.push(row.whole);
    }
  }
  return problems;
}

/** Problems as plain lines, for a report. */
export function showProblems(rows) {
  if (rows.length === 0) return "  (no problems)";
  return rows
    .map((it) => `  ${it.file}:${it.line}:${it.column} ${it.severity} ${it.source} ${it.code}: ${it.message}`)
    .join("\n");
}
