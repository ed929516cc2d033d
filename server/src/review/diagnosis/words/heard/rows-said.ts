// The rows of a table that nobody claims, each as a sentence: what stands over a cell and the cell, one after the other.
import { splitHeader } from "../../../../quantity/units";
import { beepOf } from "../../../../quantity/words";
import type { Table } from "../../../../syntax/tables";
import type { Sentence } from "../sentences";

/** More rows are no notes from the bench. */
const MOST_ROWS = 40;
const MOST_COLUMNS = 8;
const BEEPS = /\b(?:beeps?|beeper|rings?|buzz\w*|continuity|joined|connected)\b/i;
const ALSO = /\b(?:also|extra|as well|too|besides|brings)\b/i;

/** None of a table that is too large to be one of notes. */
export function rowSentences({ header, rows, columnCount }: Table): Sentence[] {
  if (rows.length > MOST_ROWS || columnCount > MOST_COLUMNS) return [];
  return rows.map(({ cells, span }) => {
    const words = header.cells.map(({ text: over }, i): string => {
      const text = cells[i]?.text ?? "";
      if (ALSO.test(over)) return `: ${/\d/.test(text) ? `also ${text}` : "nothing else"}`;
      if (text === "") return "";
      const beeps = BEEPS.test(over) ? beepOf(text) : undefined;
      if (beeps !== undefined) return beeps ? "beeps" : "no beep";
      const { word, unit } = splitHeader(over);
      const typed = unit !== undefined && /\d$/.test(text) ? `${text} ${unit}` : text;
      // What is said over a column of names would come between the names.
      return /^[A-Z]{1,3}\d/.test(text) ? typed : `${word} ${typed}`;
    });
    return { text: words.filter((one) => one !== "").join(" "), at: span.start };
  });
}

/** The table as one sentence about a bank of switches: numbers with "on" or "off" behind them. */
export function bankSentence({ header, rows, span }: Table, heading: string): Sentence | undefined {
  const names = header.cells.map(({ text }) => text);
  const state = (text: string): string | undefined =>
    /^(?:on|1|closed|up)$/i.test(text) ? "on" : /^(?:off|0|open|down)$/i.test(text) ? "off" : undefined;
  const first = rows[0]?.cells.map(({ text }) => text) ?? [];
  const across = names.flatMap((name, i) =>
    /^(?:sw(?:itch)?\s*)?\d{1,2}$/i.test(name) && state(first[i] ?? "")
      ? [`${/\d+/.exec(name)?.[0]} ${state(first[i] ?? "")}`]
      : [],
  );
  const down = rows.flatMap(({ cells: [number, is] }) =>
    /^\d{1,2}$/.test(number?.text ?? "") && state(is?.text ?? "")
      ? [`${number?.text} ${state(is?.text ?? "")}`]
      : [],
  );
  const all = rows.length === 1 && across.length > 1 ? across : columnsOf(names) ? down : [];
  if (all.length < 2) return undefined;
  return { text: `${heading} ${names.join(" ")} ${first[0] ?? ""}: ${all.join(", ")}`, at: span.start };
}

const columnsOf = (names: readonly string[]): boolean => names.length === 2;
