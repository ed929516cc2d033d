// What a judge asks of other rows than its reading's own. A long table is judged some rows at a time; where they are not
// enough, the reading is judged again with all of its table.

import { memo } from "../base/memo";
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
  asking?.push(ASKED_FOR_ALL);
  return table.readings;
}

/** One thing that a judge wanted to know of a whole table, and what it was told; `ask` is absent where it looked itself. */
export interface AskedOfTable {
  readonly key: string;
  readonly ask?: (table: LogTable) => unknown;
  readonly answer?: unknown;
}

const ASKED_FOR_ALL: AskedOfTable = { key: "" };

let asking: AskedOfTable[] | undefined;

/**
 * What a whole table says in answer to one question: the same again leaves the verdict that hangs on it as it is, whatever
 * else was read in other rows.
 * @param key of the question, by all that it depends on besides the table
 * @param ask gives what `Object.is` can compare
 * @throws where only some of its rows are there; see `withTheseRows`
 */
export function askedOfAllRows<R extends string | number | undefined>(
  table: LogTable,
  key: string,
  ask: (table: LogTable) => R,
): R {
  if (table.isPiece) throw NEEDS_ALL_ROWS;
  const answer = ask(table);
  asking?.push({ key, ask, answer });
  return answer;
}

/** What is made, with all that was asked of whole tables meanwhile; undefined where somebody looked at all rows himself. */
export function withWhatItAsks<R>(make: () => R): {
  readonly made: R;
  readonly asked: readonly AskedOfTable[] | undefined;
} {
  const outer = asking;
  const own: AskedOfTable[] = [];
  asking = own;
  try {
    const made = make();
    if (own.includes(ASKED_FOR_ALL)) return { made, asked: undefined };
    return { made, asked: [...new Map(own.map((one) => [one.key, one])).values()] };
  } finally {
    asking = outer;
    outer?.push(...own);
  }
}

/** True where a table answers as before. */
export const answersAlike = (table: LogTable, asked: readonly AskedOfTable[]): boolean =>
  asked.every(({ ask, answer }) => Object.is(ask?.(table), answer));

/** What is worked out of the rows that are there; undefined where they are not enough. */
export function withTheseRows<R>(make: () => R): R | undefined {
  try {
    return make();
  } catch (error) {
    if (error === NEEDS_ALL_ROWS) return undefined;
    throw error;
  }
}

/**
 * All that a long table says of the parts that these readings are of, as one text that changes when any of it does: what a
 * judge of a pin asks of other rows is of its own part. Undefined where that is not so, as of rails.
 */
export function partsRead(table: LogTable, readings: readonly Reading[]): string | undefined {
  if (table.kind.place !== "pin") return undefined;
  const refs = new Set<string>();
  for (const { subject } of readings) {
    if (!subject.ref) return undefined;
    refs.add(keyOf(subject.ref.text));
  }
  const read = readByPart(table);
  return [...refs].map((ref) => read.get(ref)?.join("\n") ?? "").join("\n\n");
}

const keyOf = (ref: string): string => ref.trim().toUpperCase();

const readByPart = memo((table: LogTable): ReadonlyMap<string, readonly string[]> => {
  const all = new Map<string, string[]>();
  for (const piece of table.pieces ?? [])
    for (const [ref, text] of readInPiece(piece.table)) {
      const texts = all.get(ref);
      if (texts) texts.push(text);
      else all.set(ref, [text]);
    }
  return all;
});

const readInPiece = memo((piece: LogTable): ReadonlyMap<string, string> => {
  const all = new Map<string, string>();
  for (const { subject, measure, cell } of piece.readings) {
    const ref = keyOf(subject.ref?.text ?? "");
    const row = `${subject.pin?.text}|${measure}|${cell.text}|${subject.note?.text ?? ""}`;
    const before = all.get(ref);
    all.set(ref, before === undefined ? row : `${before}\n${row}`);
  }
  return all;
});
