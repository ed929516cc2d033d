// Rows, columns and crossings of a matrix in running words: "row 2 is dead in all five columns", "rows 1 and 3 answer", "row 4
// column 2: never seen", "column 5 is always on in rows 1, 2 and 4". Words that are common practice, no source.
import type { Matrix } from "../../../../knowledge/types";
import type { Sentence } from "../sentences";
import { LIST, numbersListed, plainlySaid, type SaidRow, wordSaid } from "./said";

const STATES: readonly (readonly [result: string, words: RegExp])[] = [
  [
    "stuck",
    /\b(?:always (?:on|lit|closed|held)|stays? (?:on|lit|closed)|stuck(?: on)?|held (?:down )?(?:all the time|without)|held down without|pressed all the time|never (?:goes )?off|permanently (?:on|lit)|burns? (?:all|day))\b/i,
  ],
  [
    "dead",
    /\b(?:dead|dark|never (?:seen|lit|lights?|answers?)|not (?:seen|lit|answer\w*|light\w*)|do(?:es)? not (?:answer|light|count|come)|nothing|no answer|missing|deaf|unlit)\b/i,
  ],
  ["intermittent", /\b(?:intermittent(?:ly)?|now and then|sometimes|on and off|comes and goes)\b/i],
  ["ok", /\b(?:ok|okay|fine|right|good|answers?|works?|lights?|lit|seen|come and go|count|register)\b/i],
];
const LINES = new RegExp(
  `\\b(?<kind>rows?|col(?:umn)?s?)\\s+(?<list>${LIST})|\\b(?:all|every|each|its|the)\\s+(?:(?:\\w+|\\d+)\\s+)?(?<all>rows?|col(?:umn)?s?)\\b`,
  "gi",
);

interface Place {
  readonly rows: readonly number[] | undefined;
  readonly columns: readonly number[] | undefined;
  readonly at: number;
}

/** Of a matrix that the heading means; nothing where not one line is named. */
export function linesSaid({ text: whole, at: from }: Sentence, matrix: Matrix, procedure: string): SaidRow[] {
  const text = plainlySaid(whole);
  if (text === undefined || !/\b(?:row|col(?:umn)?)s?\s+\d/i.test(text)) return [];
  const found = new Map<string, SaidRow>();
  let ok: { readonly span: ReturnType<typeof wordSaid>; readonly places: Place } | undefined;
  // Each piece has one word for what its lines did.
  for (const piece of text.matchAll(/(?:[^,;.:!]|,(?=\s*(?:\d|and\b|row|col))|[.:](?=\S)|:(?=\s*never))+/g)) {
    const place = placeIn(piece[0], piece.index);
    const result = STATES.find(([, words]) => words.test(piece[0]))?.[0];
    if (!place || result === undefined) continue;
    if (result === "ok") ok = { span: wordSaid(piece[0].trim(), from + piece.index), places: place };
    const rows = place.rows ?? matrix.rows.map((_, i) => i + 1);
    const columns = place.columns ?? matrix.columns.map((_, i) => i + 1);
    if (place.rows === undefined && place.columns === undefined) continue;
    for (const row of rows)
      for (const column of columns) {
        if (matrix.reserved.some(([r, c]) => r === row && c === column)) continue;
        if (row > matrix.rows.length || column > matrix.columns.length) continue;
        const word = wordSaid(piece[0].trim(), from + piece.index);
        const cells = {
          row: { ...word, text: String(row) },
          column: { ...word, text: String(column) },
          result: { ...word, text: result },
        };
        // The exception comes after the rule.
        found.set(`${row},${column}`, { procedure, cells });
      }
  }
  return ok === undefined && found.size === 0 ? [] : [...found.values()];
}

function placeIn(text: string, at: number): Place | undefined {
  let rows: readonly number[] | undefined;
  let columns: readonly number[] | undefined;
  let isNamed = false;
  for (const { groups } of text.matchAll(LINES)) {
    if (groups?.all !== undefined) continue;
    const numbers = numbersListed(groups?.list ?? "");
    if (numbers.length === 0) continue;
    isNamed = true;
    if (/^row/i.test(groups?.kind ?? "")) rows = numbers;
    else columns = numbers;
  }
  return isNamed ? { rows, columns, at } : undefined;
}
