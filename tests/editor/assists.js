// What the editor offers at a place: hovers, suggestions and quick fixes, read from the screen.

import { longer, POLL, patience, SHORT } from "./patience.js";

const SUGGESTIONS = ".suggest-widget.visible .monaco-list-row";
/** Long enough for an answer under way to have redrawn a list, in milliseconds. */
const SETTLED = 150;
/** Rows of a list that may come up a second time before it is given up. */
const AGAIN = 3;
/** Times that a menu is asked for before there is taken to be none. */
const ASKED = 3;
/** Patience for a list to follow an arrow key, in milliseconds; at its end it does not. */
const MOVED = 1_000;
/** Patience for a hover to say what is waited for before the mouse is moved again, in milliseconds; longer each time. */
const SAID = 3_000;
/** Patience for a hover to go when the mouse does, in milliseconds. */
const GONE = 1_500;
const HOVER = ".monaco-hover:not(.hidden) .hover-contents";
const ACTIONS = ".action-widget .monaco-list-row.action";

/** @param {object} page @param {{ until: Function, goTo: Function, closed: Function }} helpers of the same window */
export function createAssists(page, { until, goTo, closed }) {
  const { keyboard } = page;

  /** Clicks before a 1-based column of a line that is on the screen. */
  const clickAt = async (line, column) => {
    const place = await page.evaluate(
      ([number, before]) => {
        const editor = document.querySelector(".editor-instance .monaco-editor");
        const top = [...editor.querySelectorAll(".margin-view-overlays > div")]
          .find((row) => row.textContent?.trim() === String(number))
          ?.getBoundingClientRect().top;
        const row = [...editor.querySelectorAll(".view-line")].find(
          (each) => Math.abs(each.getBoundingClientRect().top - top) < 2,
        );
        if (!row) return undefined;
        const walker = document.createTreeWalker(row, NodeFilter.SHOW_TEXT);
        let seen = 0;
        for (let node = walker.nextNode(); node; node = walker.nextNode()) {
          // Marks beside a cell are no characters of the line.
          if (node.parentElement?.closest("[class*='dyn-rule'], .injected-text")) continue;
          if (before <= seen + node.data.length) {
            const range = document.createRange();
            range.setStart(node, Math.max(0, before - seen - 1));
            range.setEnd(node, before - seen);
            const box = range.getBoundingClientRect();
            return { x: box.right, y: box.top + box.height / 2 };
          }
          seen += node.data.length;
        }
        return undefined;
      },
      [line, column - 1],
    );
    if (!place) throw new Error(`Line ${line} has no column ${column} on the screen`);
    await page.mouse.click(place.x, place.y);
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
    const isOver = patience(timeout);
    let said = "";
    for (let tries = 1; ; tries += 1) {
      // A hover that lost a race (the server still reading the file) comes back only when the mouse moves again.
      await page.mouse.move(place.x + 250, place.y + 250);
      await page.waitForSelector(HOVER, { state: "hidden", timeout: GONE }).catch(() => {});
      await page.mouse.move(place.x - 6, place.y, { steps: 4 });
      await page.mouse.move(place.x, place.y, { steps: 6 });
      const isSettled = patience(tries * SAID);
      do {
        const before = said;
        await page.waitForTimeout(SETTLED);
        said = (await hoverText()) || said;
        if (said === before && says.test(said)) return said;
        if (isOver())
          throw new Error(
            `Over "${text}"${line ? ` on line ${line}` : ""} no hover said ${says}, but: ${said || "nothing"}`,
          );
      } while (!isSettled());
    }
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

  const labelOf = async (row) =>
    `${await row.getAttribute("aria-label")} ${await row.textContent()}`.replaceAll("\u00a0", " ");

  /** Steps down a list by keyboard until the focused row holds the text, then presses Enter. */
  const pick = async (what, focused, text) => {
    const row = page.locator(focused).first();
    const seen = new Set();
    // Once round is not enough: an answer that comes in between takes the list back to its top.
    for (let again = 0; ; ) {
      await row.waitFor({ timeout: SHORT });
      const label = await labelOf(row);
      if (label.includes(text)) {
        // A list that is asked for again while it is walked through begins again at its top.
        await page.waitForTimeout(SETTLED);
        if ((await labelOf(row)).includes(text)) break;
        continue;
      }
      if (seen.has(label)) again += 1;
      if (again > AGAIN) throw new Error(`${what} is not among: ${[...seen].join(" / ")}`);
      seen.add(label);
      await keyboard.press("ArrowDown");
      const isStill = patience(MOVED);
      while ((await labelOf(row)) === label && !isStill()) await page.waitForTimeout(POLL / 2);
    }
    await keyboard.press("Enter");
  };

  /** The titles offered for the cursor's place; the menu stays open. */
  const fixes = async () => {
    for (let tries = 1; tries <= ASKED; tries += 1) {
      // Asked for while the findings are on their way, the menu comes up empty and goes again.
      await keyboard.press("Control+.");
      if (await page.waitForSelector(ACTIONS, { timeout: longer(tries) }).catch(() => undefined)) break;
    }
    return page.$$eval(ACTIONS, (rows) => rows.map((row) => (row.textContent ?? "").trim()));
  };

  /** Applies the fix with this in its title at the cursor's place. */
  const quickFix = async (title) => {
    await fixes();
    await pick(`the fix "${title}"`, `${ACTIONS}.focused`, title);
    await closed(".action-widget");
  };

  /** Waits until the keyboard is in the view with this title. */
  const keyboardIn = (title) =>
    until(`the keyboard in ${title}`, () =>
      page.evaluate(
        (wanted) => document.activeElement?.closest(".pane")?.querySelector("h3")?.textContent === wanted,
        title,
      ),
    );

  /** The row of a tree that the keyboard is on, and what a screen reader is told of it; both empty where on none. */
  const focused = () =>
    page.evaluate(() => {
      const id = document.activeElement?.getAttribute("aria-activedescendant") ?? "";
      return { id, says: (id && document.getElementById(id)?.getAttribute("aria-label")) ?? "" };
    });
  const focusedRow = async () => (await focused()).says;

  /** Steps down the tree that has the keyboard to a row that says so. @returns {Promise<string>} all it says */
  const walkTo = async (wanted) => {
    const seen = [];
    for (;;) {
      const { id, says } = await focused();
      if (wanted.test(says)) return says;
      seen.push(says);
      await keyboard.press("ArrowDown");
      const isOver = patience(SHORT);
      let isStill = patience(MOVED);
      while ((await focused()).id === id) {
        if (isOver()) throw new Error(`No row ${wanted}; it ends after ${seen.join(" / ")}`);
        // A tree whose rows are still to come takes the keyboard, but no step.
        if (id === "" && isStill()) {
          await keyboard.press("ArrowDown");
          isStill = patience(MOVED);
        }
        await page.waitForTimeout(POLL / 2);
      }
    }
  };

  return {
    clickAt,
    keyboardIn,
    focusedRow,
    walkTo,
    hoverWord,
    complete,
    suggestions,
    acceptCompletion,
    fixes,
    quickFix,
  };
}
