// The resistors of a network, pair by pair: "RN4: 1-16 47.3, 2-15 47.1, 3-14 open", "RN2 from pin 1: to 2 468, to 3 469".
import { boardIndex } from "../../../../knowledge/board-index";
import type { Board } from "../../../../knowledge/types";
import { kindOfPlaced } from "../../../../log/kinds";
import type { Sentence } from "../sentences";
import { plainlySaid, type SaidRow, wordSaid } from "./said";

const NETWORK = /(?<![\w.-])(RN\d{1,3}|RP\d{1,3})(?![\w.-])/;
const OHMS = "(\\d+(?:[.,]\\d+)?\\s?(?:ohms?|\\u03a9|[kM]\\b)?|\\d+[kMR]\\d+|OL\\b|open\\b)";
const PAIRS = new RegExp(`(?<![\\d.,-])(\\d{1,2})\\s?[-\\u2013/]\\s?(\\d{1,2})\\s*[:=]?\\s+${OHMS}`, "gi");
const FROM = /\bfrom (?:pin |leg )?(\d{1,2})\b/i;
const TO = new RegExp(`\\bto (?:pin |leg )?(\\d{1,2})\\s*[:=]?\\s+${OHMS}`, "gi");

/** @param named the network that the heading names */
export function networksSaid(
  { text: whole, at: from }: Sentence,
  board: Board,
  named: string | undefined,
): SaidRow[] {
  const text = plainlySaid(whole);
  if (text === undefined) return [];
  const own = NETWORK.exec(text)?.[1];
  const ref = own ?? (named !== undefined && NETWORK.test(named) ? named : undefined);
  const part = ref === undefined ? undefined : boardIndex(board).part(ref);
  if (!part) return [];
  const common = FROM.exec(text)?.[1];
  const found = [
    ...[...text.matchAll(PAIRS)].map((m) => [`${m[1]}-${m[2]}`, m[3] ?? "", m.index] as const),
    ...(common === undefined
      ? []
      : [...text.matchAll(TO)].map((m) => [`${common}-${m[1]}`, m[2] ?? "", m.index] as const)),
  ];
  return found.map(([pin, value, at]) => ({
    procedure: kindOfPlaced("part-ohms"),
    cells: {
      ref: wordSaid(part.ref, from + at),
      pin: { ...wordSaid(part.ref, from + at), text: pin },
      resistance: { ...wordSaid(part.ref, from + at), text: value.trim() },
    },
  }));
}
