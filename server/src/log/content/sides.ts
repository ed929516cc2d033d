// A chip's two sides beside each other: "Pin | Reading | Pin | Reading". Each side is a table of its own.
import { type Table, wordsOfRows } from "../../syntax/tables";
import { headerWord } from "../header-word";
import { PIN_WORD } from "./table-content";

/** For each table in it the columns that are not of it; undefined once where there is only one. */
export function sidesOf(table: Table): readonly (ReadonlySet<number> | undefined)[] {
  const { header } = table;
  const rows = wordsOfRows(table);
  const words = header.cells.map(({ text }) => headerWord(text));
  const groups = groupsOf(words, (at) => arePins(rows.map(({ cells }) => cells[at]?.text ?? "")));
  if (groups.length < 2) return [undefined];
  const all = words.map((_, at) => at);
  const shared = new Set(all.filter((at) => at < (groups[0]?.[0] ?? 0)));
  return groups.map((own) => new Set(all.filter((at) => !shared.has(at) && !own.includes(at))));
}

/** Blank here and there, but no column of readings that are still to come. */
function arePins(texts: readonly string[]): boolean {
  const pins = texts.filter((text) => /^\d{1,2}$/.test(text)).length;
  return 2 * pins >= texts.length && texts.every((text) => text === "" || /^\d{1,2}$/.test(text));
}

function groupsOf(words: readonly string[], isPins: (at: number) => boolean): number[][] {
  const starts = words.flatMap((word, at) =>
    word !== "" && isPins(at) && (PIN_WORD.test(word) || /[a-z]+\d/.test(word)) ? [at] : [],
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
