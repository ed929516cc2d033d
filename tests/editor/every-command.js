// Every command of the extension run by a key of one's own where it has nothing to do.

import assert from "node:assert/strict";

/** What each says where no log is in front. */
export const NO_LOG = {
  "mendlog.writeReport": /Open (?:a repair log to write its report|the repair log to report on)/,
  "mendlog.writeBill": /Open a repair log to write its bill/,
  "mendlog.writeBoardFile": /Open a repair log of the board/,
  "mendlog.writeSuspects": /Open a repair log to write down its suspects/,
  "mendlog.guide": /Open a repair log to be guided through it/,
  "mendlog.writePartsList": /Open a repair log to list its parts/,
  "mendlog.takeAsReference": /Open the repair log of the board that works/,
  "mendlog.proposeLimits": /Open a repair log to use its readings as limits/,
  "mendlog.insertTable": /Open the repair log for the table/,
  "mendlog.insertTableReadOnly": /Open the repair log for the table/,
  "mendlog.pasteColumn": /Put the cursor into a cell of a readings table/,
  "mendlog.readMeter": /Open a repair log and put the cursor/,
};

/** What those say that take a board file as well, where neither is in front. */
export const NO_LOG_OR_BOARD = {
  "mendlog.writeSheet": /Open a repair log or a board file to print its tables/,
};

/** What those say anywhere that cannot be run by a key: they are of a lens or of a job in its view. */
export const NEEDS_MORE = {
  "mendlog.showPlaces": /Click a line above a table/,
  "mendlog.jobs.writeReport": /Choose a job in the Jobs view/,
  "mendlog.jobs.openBoard": /Choose a job in the Jobs view/,
};

/** Keys that type or move: where there is no table they do what Enter, Tab and Shift+Tab do. */
export const AS_EVER = ["mendlog.nextRow", "mendlog.nextCell", "mendlog.previousCell"];

/** Commands without a word where there is nothing to end. */
export const QUIET_COMMANDS = [
  "mendlog.stopMeter",
  "mendlog.stopGuide",
  "mendlog.nextStep",
  "mendlog.startRow",
];

/** Commands that do their work wherever they are asked for: they open something, or ask what they need. */
export const ANYWHERE = [
  "mendlog.restartServer",
  "mendlog.showServerLog",
  "mendlog.newLog",
  "mendlog.importBoard",
  "mendlog.showNumbers",
  "mendlog.showPane",
  "mendlog.showProving",
  "mendlog.showSuspects",
  // Says so where there is no log in the view either.
  "mendlog.refreshSuspects",
];

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
