// A chip's two sides beside each other: "Pin | Reading | Pin | Reading". Each side is a table of its own.

import { memo } from "../../base/memo";
import { type RowWords, type Table, wordsInParts } from "../../syntax/tables";
import { headerWord } from "../header-word";
import { PIN_WORD } from "./table-content";

/** For each table in it the columns that are not of it; undefined once where there is only one. */
export function sidesOf(table: Table): readonly (ReadonlySet<number> | undefined)[] {
  const { header } = table;
  const words = header.cells.map(({ text }) => headerWord(text));
  const groups = groupsOf(words, (at) => arePins(table, at));
  if (groups.length < 2) return [undefined];
  const all = words.map((_, at) => at);
  const shared = new Set(all.filter((at) => at < (groups[0]?.[0] ?? 0)));
  return groups.map((own) => new Set(all.filter((at) => !shared.has(at) && !own.includes(at))));
}

/** Blank here and there, but no column of readings that are still to come. */
function arePins(table: Table, at: number): boolean {
  const counts = wordsInParts(table).map((rows) => pinsIn(rows, at));
  const sum = (count: keyof PinCount): number => counts.reduce((all, one) => all + one[count], 0);
  return 2 * sum("pins") >= sum("all") && sum("pins") + sum("blank") === sum("all");
}

interface PinCount {
  readonly all: number;
  readonly pins: number;
  readonly blank: number;
}

const pinsByColumn = memo((_rows: readonly RowWords[]) => new Map<number, PinCount>());

function pinsIn(rows: readonly RowWords[], at: number): PinCount {
  const known = pinsByColumn(rows).get(at);
  if (known) return known;
  const texts = rows.map(({ cells }) => cells[at]?.text ?? "");
  const count = {
    all: texts.length,
    pins: texts.filter((text) => /^\d{1,2}$/.test(text)).length,
    blank: texts.filter((text) => text === "").length,
  };
  pinsByColumn(rows).set(at, count);
  return count;
}

function groupsOf(words: readonly string[], isPins: (at: number) => boolean): number[][] {
  const starts = words.flatMap((word, at) =>
    word !== "" && (PIN_WORD.test(word) || /[a-z]+\d/.test(word)) && isPins(at) ? [at] : [],
  );
  const [first = 0, second = 0] = starts;
  const length = second - first;
  if (
    starts.length < 2 ||
    length < 2 ||
    starts.some((at, i) => i > 0 && at - (starts[i - 1] ?? 0) !== length)
  )
    return [];
  if ((starts.at(-1) ?? 0) + length < words.length - 1) return [];
  return starts.map((from) => Array.from({ length }, (_, i) => from + i).filter((at) => at < words.length));
}
