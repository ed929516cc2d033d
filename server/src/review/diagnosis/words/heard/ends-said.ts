// Two points that ring or do not, in running words and lists: "U2-13 to U1-8: nothing", "J3-5 to U5-18 and J3-7 to U5-20 beep".
import type { Library } from "../../../../knowledge/library";
import type { Board } from "../../../../knowledge/types";
import { boardPinIn } from "../place-words";
import type { Sentence } from "../sentences";
import { plainlySaid, type SaidRow, wordSaid } from "./said";

const POINT = "(?:[A-Z]{1,3}\\d{1,3}(?:\\s*[-./]\\s*\\d{1,2}|\\s+(?:pin|leg|p\\.?)\\s*\\d{1,2})|TP\\d{1,2})";
const PAIR = new RegExp(
  `(?<![\\w.-])(${POINT})\\s*(?:(?:goes |leads )?to|->|\\u2192|\\u2194|against|/|-\\s)\\s*(${POINT})(?![\\w]|[.-]\\d)`,
  "g",
);
const BEEP =
  /\b(?:(?:does|do|did|is|are)(?:\s+not|n't)\s+(?:beep|ring|buzz|joined|connected)|no (?:beep|tone|continuity|ring)|beeps?|rings?|rang|buzz(?:es)?|silent|nothing|open|OL|connected|broken)\b/gi;

/** These may be said of anything else as well, unless they stand right behind the pair. */
const VAGUE = /^(?:silent|nothing|open|OL|connected|broken)$/i;
const NEAR = 12;
const isOf = ({ 0: word }: RegExpMatchArray, between: string): boolean =>
  !VAGUE.test(word) || between.trim().length < NEAR;

export function endsSaid({ text: whole, at: from }: Sentence, board: Board, library: Library): SaidRow[] {
  const text = plainlySaid(whole);
  if (text === undefined) return [];
  const pairs = [...text.matchAll(PAIR)];
  const beeps = [...text.matchAll(BEEP)];
  // Ohms between two points are told by the part between them.
  if (pairs.length === 0 || beeps.length === 0) return [];
  const points = (typed: string) => boardPinIn(typed, board, library);
  return pairs.flatMap((pair, i): SaidRow[] => {
    const [, a = "", b = ""] = pair;
    const next = pairs[i + 1]?.index ?? text.length;
    const end = pair.index + pair[0].length;
    const behind = beeps.find((beep) => beep.index > pair.index && isOf(beep, text.slice(end, beep.index)));
    const own = behind && behind.index < next ? behind : undefined;
    const before = beeps.filter((beep) => beep.index < pair.index && !VAGUE.test(beep[0])).at(-1);
    const isAlike = /\bso (?:do|does|is|are)\b/i.test(text.slice(0, pair.index));
    const said = own ?? (isAlike ? before : undefined) ?? behind ?? before;
    const [from1, to1] = [points(a), points(b)];
    if (!said || !from1 || !to1) return [];
    return [
      {
        procedure: "continuity",
        cells: {
          from: { ...wordSaid(a, from + pair.index), text: `${from1.ref}.${from1.pin}` },
          to: { ...wordSaid(b, from + pair.index), text: `${to1.ref}.${to1.pin}` },
          continuity: wordSaid(/not|n't/i.test(said[0]) ? "no beep" : said[0], from + said.index),
        },
      },
    ];
  });
}
