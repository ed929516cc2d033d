// What a judge asks of other rows than its reading's own. A long table is judged some rows at a time; where they are not
// enough, the reading is judged again with all of its table.

import type { LogTable, Reading } from "../log/model";

class NeedsAllRows extends Error {}

/** Made once: a stack for each of thousands of readings would cost more than judging them. */
const NEEDS_ALL_ROWS = new NeedsAllRows("Other rows of the table are needed.");

/**
 * The readings of a table, for a judge that looks at other rows than its reading's own.
 * @throws where only some of them are there; see `withTheseRows`
 */
export function readingsOfAllRows(table: LogTable): readonly Reading[] {
  if (table.isPiece) throw NEEDS_ALL_ROWS;
  return table.readings;
}

/** What is worked out of the rows that are there; undefined where they are not enough. */
export function withTheseRows<R>(make: () => R): R | undefined {
  try {
    return make();
  } catch (error) {
    if (error === NEEDS_ALL_ROWS) return undefined;
    throw error;
  }
}
