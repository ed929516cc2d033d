// Every command of the extension run by a key of one's own where it has nothing to do.

import assert from "node:assert/strict";
import { OWN_KEYS } from "./server.js";

/** What each says where no log is in front. */
export const NO_LOG = {
  "mendlog.writeReport": /Open the repair log to report on/,
  "mendlog.writeBoardFile": /Open a repair log of the board/,
  "mendlog.writeSuspects": /Open the repair log whose suspects are to be written/,
  "mendlog.guide": /Open the repair log that you want to be guided/,
  "mendlog.writePartsList": /Open the repair log whose parts are to be listed/,
  "mendlog.takeAsReference": /Open the repair log of the board that works/,
  "mendlog.proposeLimits": /Open the repair log whose readings are to be limits/,
  "mendlog.insertTable": /Open the repair log that the table is for/,
  "mendlog.pasteColumn": /Put the cursor into a cell of a readings table/,
  "mendlog.readMeter": /Open a repair log and put the cursor/,
};

/** What those say anywhere that cannot be run by a key: they are of a lens or of a job in its view. */
export const NEEDS_MORE = {
  "mendlog.showPlaces": /Click a lens/,
  "mendlog.jobs.writeReport": /Choose a job in the Jobs view/,
  "mendlog.jobs.openBoard": /Choose a job in the Jobs view/,
};

/** Keys that type or move: where there is no table they do what Enter, Tab and Shift+Tab do. */
export const AS_EVER = ["mendlog.nextRow", "mendlog.nextCell", "mendlog.previousCell"];

/** Milliseconds without a word after which a command is run again. */
const QUIET = 4_000;

/** Runs commands one after the other; each is to say its words, and to ask nothing. */
export async function eachSays(editor, words, where) {
  for (const [id, said] of Object.entries(words)) {
    await editor.byKey(id);
    const told = (timeout) => editor.told(`${id} in ${where}`, said, timeout);
    // The editor shows only so many notifications in a while and keeps the rest to itself: asked again, it shows it.
    await told(QUIET).catch(async () => {
      await editor.byKey(id);
      await told();
    });
    // The palette that cleared the last words may be still on its way out; a question would stay.
    await editor.until(
      `${id} to ask nothing in ${where}`,
      async () => (await editor.page.locator(".quick-input-widget:visible").count()) === 0,
    );
  }
}

/** Nothing went wrong behind the screen: no error in the page, none of a command of ours in the extension host. */
export function assertNoFault(editor) {
  assert.deepEqual(editor.errors, []);
  const faults = editor.server
    .output(/mendlog|exthost/i)
    .split("\n")
    .filter((line) =>
      /TypeError|UriError|not possible on closed|command 'mendlog\.[^']*' (?:not found|already)/.test(line),
    );
  assert.deepEqual(faults, []);
}

/** Commands that a key can be given to and no table above names. */
export const OTHERS = Object.keys(OWN_KEYS).filter(
  (id) => id.startsWith("mendlog.") && ![NO_LOG, NEEDS_MORE].some((table) => id in table),
);
