// Switches held together and what showed besides, in lists, sentences and the rows of odd tables: "2,3 + 2,6 + 5,3: also 5,6",
// "2,3 with 2,5 and 4,3 brings 4,5 as well". Words that are common practice, no source.
import type { Matrix } from "../../../../knowledge/types";
import type { Sentence } from "../sentences";
import { plainlySaid, type SaidRow, wordSaid } from "./said";

const PAIR = /(?<![\d.,/])(\d{1,2})\s?[,/]\s?(\d{1,2})(?![\d/]|[.,]\d)/g;
/** What stands behind it was not held. */
const BRINGS =
  /\s*(?::|->|\u2192|=|\b(?:brings?|gives?|makes?|closes?|shows?(?: up)?(?: as)?|also|extra|reads? as well)\b)\s*/i;
const AS_WELL = /\b(?:as well|too|also|extra|brings?|shows? up|besides)\b/i;
const ALONE =
  /\b(?:nothing else|nothing more|none|alone|right|fine|ok|good|only (?:that|those|itself|themselves)|no (?:other|ghost|extra))\b|^\s*-?\s*$/i;

/** At least one of them must bring another, or nothing tells that these are no mere figures. */
export function heldSaid({ text: whole, at: from }: Sentence, matrix: Matrix, procedure: string): SaidRow[] {
  const text = plainlySaid(whole);
  if (text === undefined) return [];
  const isInside = ([, row, column]: RegExpMatchArray): boolean =>
    Number(row) > 0 &&
    Number(row) <= matrix.rows.length &&
    Number(column) > 0 &&
    Number(column) <= matrix.columns.length;
  // Each piece of the sentence has its own.
  return [...text.matchAll(/[^.;\n]+/g)].flatMap((piece): SaidRow[] => {
    const first = piece[0].search(PAIR);
    const parts = first < 0 ? undefined : BRINGS.exec(piece[0].slice(first));
    if (!parts) return [];
    const at = first + parts.index;
    const held = [...piece[0].slice(0, at).matchAll(PAIR)].filter(isInside);
    const behind = piece[0].slice(at + parts[0].length);
    const others = [...behind.matchAll(PAIR)].filter(isInside);
    const isTold =
      others.length > 0 ? AS_WELL.test(piece[0]) || /^\s*:/.test(parts[0]) === false : ALONE.test(behind);
    if (held.length === 0 || others.length > 2 || !isTold) return [];
    const name = (all: RegExpMatchArray[], by: string): string => all.map(([, r, c]) => `${r},${c}`).join(by);
    const word = wordSaid(piece[0].trim(), from + piece.index);
    return [
      {
        procedure,
        cells: {
          cell: { ...word, text: name(held, " + ") },
          result: { ...word, text: others.length > 0 ? `ok, also ${name(others, " also ")}` : "ok" },
        },
      },
    ];
  });
}

export const bringsAnother = (rows: readonly SaidRow[]): boolean =>
  rows.some(({ cells }) => /also/.test(cells.result?.text ?? ""));
