// Marks in the grid of a matrix: what a cross or a dot means is told by what else stands there.
import type { RowWords } from "../../syntax/tables";
import { isResult } from "./look";

const DOT = /^(?:[\u2022\u25cf\u25cb\u25ef\u25c9\u2b24*+oO#]|\(\))$/;
const CROSS = /^[xX]$/;
/** Words of grids alone, elsewhere the state of a switch: what was called is on, or it is not. */
const WORDS: ReadonlyMap<string, string> = new Map([
  ["on", "ok"],
  ["1", "ok"],
  ["light", "ok"],
  ["glows", "ok"],
  ["works fine", "ok"],
  ["make", "ok"],
  ["makes", "ok"],
  ["off", "dead"],
  ["0", "dead"],
  ["out", "dead"],
  ["nothing", "dead"],
  ["nil", "dead"],
  ["none", "dead"],
  ["no contact", "dead"],
  ["no go", "dead"],
  [".", "dead"],
]);

/** What each cell of a grid comes to where it is a mark; the text itself where it is none. */
export function marksOf(rows: readonly RowWords[]): (text: string) => string {
  const seen = new Set(rows.flatMap(({ cells }) => cells.slice(1).map(({ text }) => text.trim())));
  const others = [...seen].filter((text) => !CROSS.test(text));
  const hasDots = others.some((text) => DOT.test(text));
  // A cross says what the other mark or word does not.
  const hasWord = others.some(
    (text) =>
      hasDots || /^(?:ok|good|works?|yes|y|\u2713|\u2714|\u221a|1|on|lit|closed?s?|fine)$/i.test(text),
  );
  return (text) => {
    const mark = text.trim();
    if (CROSS.test(mark)) return hasWord ? "dead" : "ok";
    if (DOT.test(mark)) return "ok";
    return isResult(mark) ? text : (WORDS.get(mark.toLowerCase()) ?? text);
  };
}
