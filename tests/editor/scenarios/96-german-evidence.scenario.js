import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { picture } from "../picture.js";

const TEXTS = JSON.parse(readFileSync(new URL("../../../l10n/bundle.l10n.de.json", import.meta.url), "utf8"));
const TITLES = JSON.parse(readFileSync(new URL("../../../package.nls.de.json", import.meta.url), "utf8"));
const LOG = "logs/2026-033-controller.md";
const TEXT = `---
mendlog: 1
job: 2026-033
board: regatta-controller
revision: B
owner: Example Arcade
received: 2026-03-20
stage: waiting-for-approval
spending-limit: 120.00
approval: { asked: 2026-03-24 }
---

# Regatta controller, off and on

## First power

| Rail | Limit | Current | Voltage | Hot | Result   |
|------|-------|---------|---------|-----|----------|
| +5V  | 3 A   | 2.9 A   | 4.9 V   | U13 | stays up |

## Chip test

| Ref | Part   | Result |
|-----|--------|--------|
| U13 | 74LS14 | fail   |

## Heat, cold and tap test

| Ref | Test       | Result     |
|-----|------------|------------|
| U14 | cold spray | fault goes |

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   |         |

`;
/** The row of the part that failed its test. */
const SUSPECT = /^(?:etwa|über|unter) \d+ %: U13/;
const ROWS = ".pane-body .monaco-list-row";
/** English words of the shell that are to be nowhere on the screen; what the checks say speaks English. */
const ENGLISH =
  /Write the bill|Write a bench sheet|Waiting for approval|beside the log|Speaks for it|Measuring/;

export default {
  title:
    "in a German editor the new evidence, the paperwork, photographs and a file of readings are told in German",
  workspace: "../../demo",
  locale: "de",
  // 150 s where the machine is shared.
  timeout: 300_000,
  files: { [LOG]: TEXT },
  settings: { "mendlog.meter.file": "messwerte.txt" },
  async run(editor) {
    const { page } = editor;
    const says = (text, ...filled) =>
      new RegExp(
        TEXTS[text].replace(/[.*+?^$()|[\]\\]/g, "\\$&").replace(/\{(\d)\}/g, (_, n) => filled[n] ?? ".*"),
      );
    const onScreen = async () => {
      // biome-ignore lint: what is hidden is not on the screen, and its text is not to count.
      const text = await page.locator(".monaco-workbench").innerText();
      return text.replaceAll("\u00a0", " ");
    };
    const look = async (name) => {
      await editor.screenshot(`german-${name}`);
      assert.doesNotMatch(await onScreen(), ENGLISH, name);
    };

    // Where there is no log.
    await editor.openFile("notes.md");
    for (const [id, text] of [
      ["mendlog.writeBill", "Open a repair log to write its bill, then try again."],
      ["mendlog.writeSheet", "Open a repair log or a board file to print its tables, then try again."],
    ]) {
      await editor.byKey(id);
      await editor.told(`${id} without a log`, says(text));
    }

    await editor.openFile(LOG);
    await editor.awake();
    await editor.byKey("mendlog.showSuspects");
    const row = (start) => page.locator(ROWS, { hasText: start }).first();
    await row(SUSPECT).waitFor();
    await row(SUSPECT).click();
    await row(/^Spricht dafür: \d+/).waitFor();
    await look("evidence-suspects");
    await editor.command("Mendlog: Focus on Aufträge View");
    await row(new RegExp(TEXTS["Waiting for approval"])).waitFor();
    await look("evidence-jobs");

    // The tables of the new kinds are named as headings of the log are, in English; what asks for one is not.
    await editor.openFile(LOG, TEXT.split("\n").length);
    await editor.command(`Mendlog: ${TITLES["command.insertTable"]}`);
    await editor.until("the tables to choose from", async () => (await editor.listed()).length > 3);
    await look("evidence-tables");
    await editor.press("Escape");

    // A file of readings that is not there.
    const cell = editor.find(LOG, "| U14 | 1   |");
    await editor.goTo(cell.line, cell.column + 14);
    await editor.press("Control+Alt+Enter");
    await editor.until("word of the file", async () =>
      (await editor.notifications()).some((one) =>
        says(
          "Readings cannot be taken from {0} ({1}). Check that the program that writes them runs, and the path in the settings.",
          "messwerte\\.txt",
          "ENOENT",
        ).test(one),
      ),
    );
    await look("evidence-meter-file");
    await editor.clearNotifications();

    for (const [key, ending] of [
      ["writeBill", "bill"],
      ["writeSheet", "sheet"],
    ]) {
      await editor.command(`Mendlog: ${TITLES[`command.${key}`]}`);
      const name = `2026-033-controller-${ending}.html`;
      const input = page.locator(".quick-input-widget input.input").first();
      await editor.until(`the save dialog with ${name}`, async () =>
        (await input.inputValue().catch(() => "")).endsWith(name),
      );
      await look(`evidence-${ending}-dialog`);
      await editor.press("Enter");
      await editor.until(`${name} on disk`, () => existsSync(join(editor.folder, "logs", name)));
      const done = says(ending === "bill" ? "The bill is written." : "The bench sheet is written.");
      await editor.until(`word of ${name}`, async () =>
        (await editor.notifications()).some((one) => done.test(one)),
      );
      await look(`evidence-${ending}-written`);
      await editor.clearNotifications();
    }

    // A photograph pasted, and the ways to paste it that one may choose from.
    await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await editor.openFile(LOG, TEXT.split("\n").length);
    await page.evaluate(
      async (base64) => {
        const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
        const blob = new Blob([bytes], { type: "image/png" });
        await navigator.clipboard.write([new ClipboardItem({ "image/png": blob })]);
      },
      picture([30, 110, 60], [40, 40, 40], 120, 80).toString("base64"),
    );
    await editor.press("Control+V");
    await editor.until("the link", async () => (await editor.editorText()).includes("](photos/2026-033"));
    await page.locator(".post-edit-widget").click();
    const way = TEXTS["Save the photograph beside the log"];
    await editor.until("the ways to paste", async () => (await onScreen()).includes(way));
    await look("evidence-photograph");
    await editor.press("Escape");
    await editor.save();
  },
};
