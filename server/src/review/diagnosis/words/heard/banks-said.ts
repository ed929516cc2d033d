// Option switches as running words have them: "SW1: 2, 5 and 6 are on, all others off", "SW1 as found: 1 off, 2 on".
import type { Board } from "../../../../knowledge/types";
import type { Sentence } from "../sentences";
import { LIST, numbersListed, plainlySaid, type SaidRow, wordSaid } from "./said";

const STATES = new RegExp(
  `(?:switch(?:es)?\\s+)?(${LIST})\\s*(?:is|are|=|:|both|all|stand|at)?\\s*(on|off)\\b|\\b(?:rest|others?|other \\w+|remaining \\w+)\\s*(?:is|are|all|=|:)?\\s*(on|off)\\b`,
  "gi",
);
const TURNED_LIST = new RegExp(`\\b(on|off)\\s*:\\s*(${LIST})`, "gi");

export function banksSaid({ text: whole, at: from }: Sentence, board: Board): SaidRow[] {
  const text = plainlySaid(whole);
  if (text === undefined) return [];
  for (const { ref, settings } of board.switchBanks.values()) {
    const at = text.search(new RegExp(`(?<![\\w.-])${ref}(?![\\w.-])`, "i"));
    if (at < 0) continue;
    const found = new Map<number, string>();
    let rest: string | undefined;
    for (const [, list, state, restState] of text.slice(at + ref.length).matchAll(STATES)) {
      if (restState) rest = restState;
      else for (const number of numbersListed(list ?? "")) found.set(number, state ?? "");
    }
    for (const [, state, list] of text.slice(at + ref.length).matchAll(TURNED_LIST))
      for (const number of numbersListed(list ?? "")) found.set(number, state ?? "");
    if (rest !== undefined)
      for (const number of settings.flatMap(({ switches }) => switches))
        if (!found.has(number)) found.set(number, rest);
    if (found.size < 2) continue;
    return [...found]
      .sort(([a], [b]) => a - b)
      .map(([number, state]) => ({
        procedure: "settings",
        cells: {
          ref: wordSaid(ref, from + at),
          switch: { ...wordSaid(ref, from + at), text: String(number) },
          state: { ...wordSaid(ref, from + at), text: state },
        },
      }));
  }
  return [];
}
