// What a person does in one editor window, as functions: open, type, hover, complete, fix, read the problems.
// Everything is read from the screen; nothing asks the extension itself.

import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { createAssists } from "./assists.js";
import { longer, POLL, patience, SHORT } from "./patience.js";
import { readProblems, showProblems } from "./problems.js";
import { OWN_KEYS } from "./server.js";

const READY_TIMEOUT = 40_000;
const TRIES = 4;

/** The editor shows no more notifications than these in so many milliseconds; others go unseen into a list. */
const TOASTS = { most: 3, within: 900 };

const QUICK_INPUT = ".quick-input-widget:visible input.input";

/** @param {{ page: object, folder: string, out: string, server: object }} parts */
export function createEditor({ page, folder, out, server }) {
  const { keyboard } = page;

  /** Polls until `probe` gives something truthy. @throws {Error} naming `what` and the last value seen. */
  const until = async (what, probe, timeout = SHORT) => {
    const began = Date.now();
    const isOver = patience(timeout);
    let last;
    for (;;) {
      last = await probe();
      if (last) return last;
      if (isOver()) throw new Error(`Waited ${Date.now() - began} ms for ${what}`);
      await page.waitForTimeout(POLL);
    }
  };

  const ready = async ({ folderless = false } = {}) => {
    await page.waitForSelector(".monaco-workbench", { timeout: READY_TIMEOUT });
    if (!folderless) await page.waitForSelector(".explorer-folders-view", { timeout: READY_TIMEOUT });
    await page.waitForSelector("#status\\.problems", { timeout: READY_TIMEOUT });
  };

  /** Opens the quick input with exactly this text in it; ">" starts a command, ":" a line, "/" a path. */
  const quickInput = async (text) => {
    const input = page.locator(QUICK_INPUT);
    for (let tries = 1; ; tries += 1) {
      await keyboard.press("F1");
      try {
        await input.waitFor({ timeout: longer(tries) });
        await input.fill(text, { timeout: longer(tries) });
        return;
      } catch (error) {
        // A box that closes behind the last command's back takes the keys of the next one with it, a page of its own
        // (a preview) those of the window.
        if (tries === TRIES) throw error;
        await keyboard.press("Escape");
      }
    }
  };

  const quickRows = () =>
    page.$$eval(".quick-input-widget .monaco-list-row", (rows) =>
      rows.map((row) => row.getAttribute("aria-label") ?? row.textContent ?? ""),
    );

  const closed = (selector) => page.waitForSelector(selector, { state: "hidden", timeout: SHORT });

  /** Types into the quick input until it offers something: a box opened too early goes on without what came after it. */
  const offered = async (text, what, probe) => {
    for (let tries = 1; ; tries += 1) {
      await quickInput(text);
      try {
        return await until(what, probe, tries === TRIES ? SHORT : longer(tries));
      } catch (error) {
        if (tries === TRIES) throw error;
        await keyboard.press("Escape");
        await closed(".quick-input-widget");
      }
    }
  };

  /** Runs a command by its whole title as the palette shows it, category included ("View: Toggle Panel"). */
  const command = async (title) => {
    // The label goes on with ", " and the keys or the group; "Undo" must not run "Cursor Undo".
    const is = (label) => label === title || label.startsWith(`${title}, `);
    const index = await offered(`>${title}`, `the command "${title}" in the palette`, async () => {
      const found = (await quickRows()).findIndex(is);
      return found >= 0 && { found };
    });
    for (let i = 0; i < index.found; i += 1) await keyboard.press("ArrowDown");
    await until(`the command "${title}" under the cursor`, async () =>
      is(
        (await page.locator(".quick-input-widget .monaco-list-row.focused").getAttribute("aria-label")) ?? "",
      ),
    );
    await keyboard.press("Enter");
  };

  /** Runs a command by a key of the user's own, also where the palette hides it. */
  const byKey = async (id) => {
    const key = OWN_KEYS[id];
    if (key === undefined) throw new Error(`${id} has no key: give it one in server.js`);
    const names = { ctrl: "Control", alt: "Alt", shift: "Shift" };
    await keyboard.press(
      key
        .split("+")
        .map((part) => names[part] ?? `${part.length === 1 ? "Key" : ""}${part.toUpperCase()}`)
        .join("+"),
    );
  };

  const activeFile = async () =>
    (await page.locator(".editor-group-container.active .tab.active").getAttribute("data-resource-name")) ??
    "";

  /** Opens a file of the workspace by its relative path, the cursor at a 1-based line and column. */
  const openFile = async (name, line = 1, column = 1) => {
    const path = join(folder, name);
    const base = name.split("/").at(-1);
    await offered(`${path}:${line}:${column}`, `"${name}" in the quick input`, async () =>
      (await quickRows())[0]?.includes(base),
    );
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

  /** Waits until the editor has heard that its keys fill in a table here, which shows in the palette. */
  const tableKeys = () =>
    until("the commands of a table", async () => {
      await quickInput(">Mendlog: Go to the next row");
      const there = (await quickRows()).some((row) => row.startsWith("Mendlog: Go to the next row"));
      await keyboard.press("Escape");
      await closed(".quick-input-widget");
      return there;
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

  /** Writes a file beside the editor's back, as another program would. */
  const writeFile = (name, text) => {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  };

  /** Waits until the workspace has findings: from then on the server has read its boards and answers. */
  const awake = () => {
    const counts = async () => (await page.locator("#status\\.problems").textContent()) ?? "";
    return until("the first findings", async () => /[1-9]/.test(await counts()), READY_TIMEOUT);
  };

  const typeText = (text, { delay = 15 } = {}) => keyboard.type(text, { delay });

  /** Waits until the file in front is changed and not saved. */
  const changed = () =>
    until("the file to change", async () => (await page.locator(".tab.active.dirty").count()) === 1);

  const save = async () => {
    for (let tries = 1; ; tries += 1) {
      await keyboard.press("Control+S");
      const isSaved = async () => (await page.locator(".tab.active.dirty").count()) === 0;
      try {
        return await until("the file to be saved", isSaved, longer(tries));
      } catch (error) {
        // What came into the text behind the key's back is saved by another.
        if (tries === TRIES) throw error;
      }
    }
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

  /** What the panel is filtered by, kept until another filter is asked for; see readProblems. */
  let panelFilter;
  const problems = () => readProblems(page, { command, folder, filter: panelFilter });
  const filterProblems = (text) => {
    panelFilter = text;
  };

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

  /** Those that nobody took away, also where the editor has hidden them or never showed them. */
  const allNotifications = async () => {
    await command("Notifications: Show Notifications");
    await page.waitForSelector(".notifications-center.visible", { timeout: SHORT });
    return page.$$eval(".notifications-center .notification-list-item-message", (nodes) =>
      nodes.map((node) => (node.textContent ?? "").trim()),
    );
  };

  /** When notifications were last seen. */
  const shown = [];

  /** Waits for a notification that fits, and takes all of them away. @returns {Promise<string>} its text */
  const told = async (what, words, timeout = SHORT) => {
    let seen = [];
    const look = async () => {
      seen = await notifications();
      return seen.find((one) => words.test(one));
    };
    const text = await until(what, look, timeout).catch((error) => {
      throw new Error(`${error.message} (${words}); told is: ${seen.join(" / ") || "nothing"}`);
    });
    shown.push(Date.now());
    await clearNotifications();
    const third = shown.at(-TOASTS.most) ?? 0;
    await page.waitForTimeout(Math.max(0, third + TOASTS.within - Date.now()));
    return text;
  };

  const clearNotifications = async () => {
    await until("the notifications to go", async () => {
      if ((await notifications()).length === 0) return true;
      await byKey("notifications.clearAll");
      return (await notifications()).length === 0;
    });
  };

  /** The rows of the list in sight; those of one that is closed stay in the page and are left out. */
  const listed = () =>
    page.$$eval(".quick-input-widget .monaco-list-row", (rows) =>
      rows
        .filter((row) => row.checkVisibility())
        .map((row) => row.getAttribute("aria-label") ?? row.textContent ?? ""),
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
    byKey,
    openFile,
    activeFile,
    cursor,
    cursorAt,
    tableKeys,
    goTo,
    select,
    find,
    readFile,
    writeFile,
    awake,
    quickRows,
    quickInput,
    typeText,
    press: (key) => keyboard.press(key),
    changed,
    save,
    editorText,
    ...createAssists(page, { until, goTo, closed }),
    problems,
    filterProblems,
    waitForProblem,
    waitForNoProblem,
    focusEditor,
    notifications,
    allNotifications,
    told,
    clearNotifications,
    listed,
    screenshot,
  };
}
