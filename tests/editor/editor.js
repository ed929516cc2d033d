// What a person does in one editor window, as functions: open, type, hover, complete, fix, read the problems.
// Everything is read from the screen; nothing asks the extension itself.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { readProblems, showProblems } from "./problems.js";

const READY_TIMEOUT = 40_000;
const SHORT = 10_000;
const POLL = 60;

const SUGGESTIONS = ".suggest-widget.visible .monaco-list-row";
const HOVER = ".monaco-hover:not(.hidden) .hover-contents";
const ACTIONS = ".action-widget .monaco-list-row.action";
const QUICK_INPUT = ".quick-input-widget:visible input.input";

/** @param {{ page: object, folder: string, out: string, server: object }} parts */
export function createEditor({ page, folder, out, server }) {
  const { keyboard } = page;

  /** Polls until `probe` gives something truthy. @throws {Error} naming `what` and the last value seen. */
  const until = async (what, probe, timeout = SHORT) => {
    const deadline = Date.now() + timeout;
    let last;
    for (;;) {
      last = await probe();
      if (last) return last;
      if (Date.now() > deadline) throw new Error(`Waited ${timeout} ms for ${what}`);
      await page.waitForTimeout(POLL);
    }
  };

  const ready = async () => {
    await page.waitForSelector(".monaco-workbench", { timeout: READY_TIMEOUT });
    await page.waitForSelector(".explorer-folders-view", { timeout: READY_TIMEOUT });
    await page.waitForSelector("#status\\.problems", { timeout: READY_TIMEOUT });
  };

  /** Opens the quick input with exactly this text in it; ">" starts a command, ":" a line, "/" a path. */
  const quickInput = async (text) => {
    await keyboard.press("F1");
    const input = page.locator(QUICK_INPUT);
    await input.waitFor({ timeout: SHORT });
    await input.fill(text);
  };

  const quickRows = () =>
    page.$$eval(".quick-input-widget .monaco-list-row", (rows) =>
      rows.map((row) => row.getAttribute("aria-label") ?? row.textContent ?? ""),
    );

  const closed = (selector) => page.waitForSelector(selector, { state: "hidden", timeout: SHORT });

  /** Runs a command by its title as the palette shows it. */
  const command = async (title) => {
    await quickInput(`>${title}`);
    await until(`the command "${title}" first in the palette`, async () =>
      (await quickRows())[0]?.toLowerCase().includes(title.toLowerCase()),
    );
    await keyboard.press("Enter");
  };

  const activeFile = async () =>
    (await page.locator(".editor-group-container.active .tab.active").getAttribute("data-resource-name")) ??
    "";

  /** Opens a file of the workspace by its relative path, the cursor at a 1-based line and column. */
  const openFile = async (name, line = 1, column = 1) => {
    const path = join(folder, name);
    await quickInput(`${path}:${line}:${column}`);
    const base = name.split("/").at(-1);
    await until(`"${name}" in the quick input`, async () => (await quickRows())[0]?.includes(base));
    await keyboard.press("Enter");
    await until(`"${name}" in the active tab`, async () => (await activeFile()) === base);
    await page.waitForSelector(".editor-instance .view-line", { timeout: SHORT });
    await cursorAt(line, column);
  };

  /** @returns {Promise<{ line: number, column: number }>} 1-based, from the status bar. */
  const cursor = async () => {
    const text = (await page.locator("#status\\.editor\\.selection").textContent()) ?? "";
    const [line = 0, column = 0] = [...text.matchAll(/\d+/g)].map((it) => Number(it[0]));
    return { line, column };
  };

  const cursorAt = (line, column) =>
    until(`the cursor at ${line}:${column}`, async () => {
      const at = await cursor();
      return at.line === line && at.column === column;
    });

  /** Moves the cursor; line and column are 1-based. */
  const goTo = async (line, column = 1) => {
    await quickInput(`:${line}:${column}`);
    await keyboard.press("Enter");
    await closed(".quick-input-widget");
    await cursorAt(line, column);
  };

  /** Selects `length` characters from a 1-based place. */
  const select = async (line, column, length) => {
    await goTo(line, column);
    for (let i = 0; i < length; i += 1) await keyboard.press("Shift+ArrowRight");
  };

  /** Where a text stands in the file as last saved. @returns {{ line: number, column: number }} 1-based. */
  const find = (name, text, nth = 1) => {
    const whole = readFile(name);
    let offset = -1;
    for (let i = 0; i < nth; i += 1) {
      offset = whole.indexOf(text, offset + 1);
      if (offset < 0) throw new Error(`"${text}" does not stand ${nth} times in ${name}`);
    }
    const before = whole.slice(0, offset).split("\n");
    return { line: before.length, column: before.at(-1).length + 1 };
  };

  const readFile = (name) => readFileSync(join(folder, name), "utf8");

  const typeText = (text, { delay = 15 } = {}) => keyboard.type(text, { delay });

  const save = async () => {
    await keyboard.press("Control+S");
    await until("the file to be saved", async () => (await page.locator(".tab.active.dirty").count()) === 0);
  };

  /** The lines on the screen, top to bottom, with plain spaces. */
  const editorText = async () => {
    const lines = await page.$$eval(".editor-instance .monaco-editor .view-line", (nodes) =>
      nodes.map((node) => [Number.parseFloat(node.style.top), node.textContent ?? ""]),
    );
    return lines
      .sort(([a], [b]) => a - b)
      .map(([, text]) => text.replaceAll("\u00a0", " "))
      .join("\n");
  };

  /** The middle of a text on the screen; without `line`, its first place on the visible lines. */
  const placeOf = (text, line) =>
    page.evaluate(
      ([wanted, number]) => {
        const editor = document.querySelector(".editor-instance .monaco-editor");
        const tops = [...editor.querySelectorAll(".margin-view-overlays > div")]
          .filter((row) => number === undefined || row.textContent?.trim() === String(number))
          .map((row) => row.getBoundingClientRect().top);
        const lines = [...editor.querySelectorAll(".view-line")]
          .filter((row) => tops.some((top) => Math.abs(top - row.getBoundingClientRect().top) < 2))
          .sort((a, b) => a.getBoundingClientRect().top - b.getBoundingClientRect().top);
        for (const row of lines) {
          const start = (row.textContent ?? "").replaceAll("\u00a0", " ").indexOf(wanted);
          if (start < 0) continue;
          const range = document.createRange();
          const walker = document.createTreeWalker(row, NodeFilter.SHOW_TEXT);
          const end = start + wanted.length;
          let seen = 0;
          let begun = false;
          for (let node = walker.nextNode(); node; node = walker.nextNode()) {
            const length = node.data.length;
            if (!begun && start < seen + length) {
              range.setStart(node, start - seen);
              begun = true;
            }
            if (begun && end <= seen + length) {
              range.setEnd(node, end - seen);
              break;
            }
            seen += length;
          }
          const box = range.getBoundingClientRect();
          return { x: box.left + box.width / 2, y: box.top + box.height / 2 };
        }
        return undefined;
      },
      [text, line],
    );

  /**
   * Rests the mouse on a text and gives what the hover says; `line` (1-based) is scrolled into view. Findings and
   * the several providers' parts arrive one after the other: `says` waits for the part a scenario is about.
   * @param {string} text
   * @param {{ line?: number, says?: RegExp, timeout?: number }} [options]
   */
  const hoverWord = async (text, { line, says = /\S/, timeout = SHORT } = {}) => {
    if (line !== undefined) await goTo(line);
    const place = await until(`"${text}" on the screen`, () => placeOf(text, line));
    const deadline = Date.now() + timeout;
    let said = "";
    while (Date.now() < deadline) {
      // A hover that lost a race (the server still reading the file) comes back only when the mouse moves anew.
      await page.mouse.move(place.x + 250, place.y + 250);
      await closed(".monaco-hover:not(.hidden)").catch(() => {});
      await page.mouse.move(place.x - 6, place.y, { steps: 4 });
      await page.mouse.move(place.x, place.y, { steps: 6 });
      const settled = Date.now() + 3_000;
      while (Date.now() < settled) {
        const before = said;
        await page.waitForTimeout(250);
        said = (await hoverText()) || said;
        if (said === before && says.test(said)) return said;
      }
    }
    throw new Error(
      `Over "${text}"${line ? ` on line ${line}` : ""} no hover said ${says}, but: ${said || "nothing"}`,
    );
  };

  const hoverText = async () => {
    // As laid out, not textContent: paragraphs and table rows keep their line breaks.
    // biome-ignore lint/performance/useDomNodeTextContent: the line breaks are wanted
    const parts = await page.$$eval(HOVER, (nodes) => nodes.map((node) => node.innerText.trim()));
    const text = parts.filter(Boolean).join("\n\n").replaceAll("\u00a0", " ");
    return /^loading/i.test(text) ? "" : text;
  };

  /**
   * The rows of the suggestion list in sight, one string each: the label, then what stands beside it.
   * Asks for the list unless told that typing a trigger character has done so.
   */
  const complete = async ({ ask = true, timeout = SHORT } = {}) => {
    if (ask) await keyboard.press("Control+Space");
    return until(
      "suggestions",
      async () => {
        const rows = await suggestions();
        return rows.length > 0 && rows;
      },
      timeout,
    );
  };

  const suggestions = () =>
    page.$$eval(SUGGESTIONS, (rows) =>
      rows
        .filter((row) => row.querySelector(".label-name"))
        .map((row) =>
          [".label-name", ".signature-label", ".qualifier-label", ".details-label"]
            .map((part) => (row.querySelector(part)?.textContent ?? "").replaceAll("\u00a0", " ").trim())
            .filter(Boolean)
            .join("  "),
        ),
    );

  /** Walks down the open suggestion list to a row holding `label` and takes it. */
  const acceptCompletion = async (label) => {
    await pick(`the suggestion "${label}"`, ".suggest-widget.visible .monaco-list-row.focused", label);
    await closed(".suggest-widget.visible");
  };

  /** Steps down a list by keyboard until the focused row holds the text, then presses Enter. */
  const pick = async (what, focused, text) => {
    const row = page.locator(focused).first();
    const seen = new Set();
    for (;;) {
      await row.waitFor({ timeout: SHORT });
      const label = `${await row.getAttribute("aria-label")} ${await row.textContent()}`.replaceAll(
        "\u00a0",
        " ",
      );
      if (label.includes(text)) break;
      if (seen.has(label)) throw new Error(`${what} is not among: ${[...seen].join(" / ")}`);
      seen.add(label);
      await keyboard.press("ArrowDown");
      await page.waitForTimeout(POLL);
    }
    await keyboard.press("Enter");
  };

  /** The titles offered for the cursor's place; the menu stays open. */
  const fixes = async () => {
    await keyboard.press("Control+.");
    await page.waitForSelector(ACTIONS, { timeout: SHORT });
    return page.$$eval(ACTIONS, (rows) => rows.map((row) => (row.textContent ?? "").trim()));
  };

  /** Applies the fix with this in its title at the cursor's place. */
  const quickFix = async (title) => {
    await fixes();
    await pick(`the fix "${title}"`, `${ACTIONS}.focused`, title);
    await closed(".action-widget");
  };

  const problems = () => readProblems(page, { command, folder });

  /** Waits for a row of the Problems panel. @param {(row: object) => boolean} predicate */
  const waitForProblem = async (predicate, { timeout = SHORT } = {}) => {
    let rows = [];
    try {
      return await until(
        "a problem",
        async () => {
          rows = await problems();
          return rows.find(predicate);
        },
        timeout,
      );
    } catch (error) {
      throw new Error(`${error.message} (${predicate}); the panel shows:\n${showProblems(rows)}`);
    }
  };

  /** Waits until no row of the Problems panel fits. */
  const waitForNoProblem = async (predicate, { timeout = SHORT } = {}) => {
    let rows = [];
    try {
      await until(
        "a problem to go",
        async () => {
          rows = await problems();
          return !rows.some(predicate);
        },
        timeout,
      );
    } catch (error) {
      throw new Error(`${error.message} (${predicate}); the panel shows:\n${showProblems(rows)}`);
    }
  };

  const focusEditor = () => keyboard.press("Control+1");

  const notifications = () =>
    page.$$eval(".notifications-toasts .notification-list-item-message", (nodes) =>
      nodes.map((node) => (node.textContent ?? "").trim()),
    );

  const screenshot = async (name) => {
    const path = join(out, `${name}.png`);
    await page.screenshot({ path });
    return path;
  };

  return {
    page,
    folder,
    server,
    ready,
    until,
    command,
    openFile,
    activeFile,
    cursor,
    goTo,
    select,
    find,
    readFile,
    typeText,
    press: (key) => keyboard.press(key),
    save,
    editorText,
    hoverWord,
    complete,
    suggestions,
    acceptCompletion,
    fixes,
    quickFix,
    problems,
    waitForProblem,
    waitForNoProblem,
    focusEditor,
    notifications,
    screenshot,
  };
}
