// The Problems panel as data, read from its rows.

import { isAbsolute, relative } from "node:path";

const PANEL = ".markers-panel";
const FILTER = ".viewpane-filter input";
/** The panel waits a moment before it filters, in milliseconds. */
const FILTER_DELAY = 400;
const SCROLL_STEP = 240;
const SCROLL_TIMEOUT = 40_000;

/**
 * Every row of the Problems panel, opened first if need be; the editor has the focus afterwards.
 * The panel draws only the rows in sight, so a long list is scrolled through.
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
  const rows = new Map();
  const look = async () => {
    const seen = await page.evaluate(rowsInSight, PANEL);
    for (const row of seen.drawn) rows.set(row.index, row);
    return seen;
  };
  const { above, below } = await look();
  if (above || below) await scrollThrough(page, look, above, SCROLL_STEP);
  // A slow page draws fewer rows than it was scrolled by: what was passed over is looked for again, slower.
  for (let step = SCROLL_STEP / 2; hasGaps(rows) && step >= 30; step /= 2) {
    await scrollThrough(page, look, true, step);
  }
  if (hasGaps(rows)) throw new Error("Some rows of the Problems panel were never drawn");
  return assemble(
    [...rows.values()].sort((a, b) => a.index - b.index),
    folder,
  );
}

async function narrow(page, filter) {
  const field = page.locator(`.pane-body-part-of-panel ${FILTER}, .panel ${FILTER}`).first();
  if ((await field.inputValue()) === filter) return;
  await field.fill(filter);
  await page.waitForTimeout(FILTER_DELAY);
  await page.keyboard.press("Control+1");
}

const hasGaps = (rows) => rows.size > 0 && Math.max(...rows.keys()) + 1 !== rows.size;

/** To the top, then down to the end; small steps, since the list draws a window of rows only after each. */
async function scrollThrough(page, look, aboveAtFirst, step) {
  const box = await page.locator(`${PANEL} .monaco-list`).boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  const turn = async (pixels) => {
    await page.mouse.wheel(0, pixels);
    await page.waitForTimeout(40);
    return look();
  };
  const enough = Date.now() + SCROLL_TIMEOUT;
  let above = aboveAtFirst;
  while (above && Date.now() < enough) ({ above } = await turn(-SCROLL_STEP));
  let { below } = await look();
  while (below && Date.now() < enough) ({ below } = await turn(step));
  if (Date.now() >= enough) throw new Error("The Problems panel did not scroll to its end");
}

/** Runs in the page. `above` and `below` say that the list goes on beyond the rows drawn. */
function rowsInSight(panel) {
  const text = (row, selector) =>
    (row.querySelector(selector)?.textContent ?? "").replaceAll("\u00a0", " ").trim();
  const drawn = [...document.querySelectorAll(`${panel} .monaco-list-row`)].map((row) => ({
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
  const some = drawn.length > 0;
  return {
    drawn,
    above: some && !drawn.some((row) => row.index === 0),
    below: some && !drawn.some((row) => row.last),
  };
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
