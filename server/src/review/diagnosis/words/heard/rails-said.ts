// Rails with what was read on them, in running words and lists: "+5V 4.71 V with 20 mV of ripple", "-12 V: 8.9k to ground".
// Words that are common practice, no source.
import { memo } from "../../../../base/memo";
import { findRail } from "../../../../judge/rail-name";
import { siValue } from "../../../../judge/uncertainty";
import type { Board, Rail } from "../../../../knowledge/types";
import { disconnectionsIn } from "../../../../log/disconnections";
import { kindOfPlaced } from "../../../../log/kinds";
import { saysPowerOff } from "../power-off";
import type { Sentence } from "../sentences";
import { plainlySaid, type SaidRow, wordSaid } from "./said";

const BETWEEN =
  /\s*(?:\(TP\d+\)\s*)?(?:rail\s+|supply\s+|still\s+|now\s+|only\s+)*(?:to (?:ground|gnd)\s*)?(?:(?:is|was|reads?|read|has|stands at|goes to|went to|gives|shows|at|still|now|only)\s+)*[:=\u2192-]?\s*(?:only\s+|still\s+|at\s+|about\s+)?/
    .source;
const FIGURE = "[-\\u2212]?\\d+(?:[.,]\\d+)?";
const READ = new RegExp(
  `^${BETWEEN}(?:(?<ohms>${FIGURE}\\s?(?:kohm|Mohm|ohms?|\\u03a9|R\\b|[kM]\\b)|\\d+[kMR]\\d+)|(?<volts>${FIGURE})\\s?(?<unit>m?V(?![A-Za-z])|(?![\\w.]|\\s?(?:Hz|A|mA|%|W)\\b)))`,
  "i",
);
const RIPPLE =
  /^[^;.!?]{0,20}?(?<size>\d+(?:[.,]\d+)?\s?m?V)(?:\s+(?:of|at|on it|p-?p|ripple|AC|teeth|dips)\b|\s*,)*\s*(?:(?:of|at)\s+)?(?<hz>\d{2,3}\s?Hz)?/i;
/** A second voltage under a tenth of a volt's unit, or with such a word, is what ripples. */
const RIPPLES = /\b(?:ripple|AC|p-?p|of\s+\d+\s?Hz|at\s+\d+\s?Hz|\d\s?Hz|teeth|hum|dips|mV)\b/i;

/** The names of the board's rails as people type them, the longest first. */
const namesOf = memo((board: Board): RegExp | undefined => {
  const names = [...board.rails.values()].map(({ name }) =>
    name
      .replace(/[.*+?^${}()|[\]\\]/g, "\\$&")
      .replace(/^\\\+/, "\\+?")
      .replace(/(?<=\d)V/i, "\\s?V")
      .replace(/ /g, "\\s+"),
  );
  if (names.length === 0) return undefined;
  names.sort((a, b) => b.length - a.length);
  return new RegExp(`(?<![\\w.+-])(?:${names.join("|")})(?![\\w])`, "gi");
});

/** As a share of it: a plain figure so near to a rail's voltage is that, whatever is measured around. Common practice, no source. */
const NEAR = 0.12;
const isItsVoltage = (typed: string, { nominal }: Rail): boolean => {
  const volts = siValue(nominal, "V");
  return volts !== undefined && Math.abs(Number(typed.replace(",", ".")) - volts) <= NEAR * Math.abs(volts);
};

/** Under a word for ohms a plain figure is no voltage. */
export function railsSaid({ text: whole, at: from }: Sentence, board: Board, isOhms: boolean): SaidRow[] {
  const text = plainlySaid(whole);
  const names = namesOf(board);
  if (text === undefined || !names) return [];
  const off = disconnectionsIn(text).length > 0;
  const all = [...text.matchAll(names)];
  return all.flatMap((match, i): SaidRow[] => {
    const at = match.index;
    const rail = findRail(board, match[0]);
    const end = at + match[0].length;
    const next = all[i + 1]?.index ?? text.length;
    const rest = text.slice(end, next);
    const read = READ.exec(rest);
    if (!rail || !read?.groups) return [];
    const name = wordSaid(match[0], from + at);
    const { ohms, volts = "", unit = "" } = read.groups;
    const typed = read[0].slice(read[0].search(new RegExp(`(?:${FIGURE})\\s?\\S*$`)));
    const value = wordSaid(typed.trim(), from + end + read[0].indexOf(typed));
    const note = off || saysPowerOff(text) ? { note: wordSaid(text.trim(), from) } : {};
    if (ohms !== undefined || (isOhms && unit === "" && !isItsVoltage(volts, rail)))
      return [{ procedure: kindOfPlaced("rail-ohms"), cells: { rail: name, resistance: value, ...note } }];
    // A round figure without its unit may be anything.
    if (off || (unit === "" && !/[.,]/.test(volts))) return [];
    const behind = rest.slice(read[0].length);
    const ripple = RIPPLE.exec(behind);
    const isRipple = ripple?.groups && RIPPLES.test(ripple[0]);
    const rippled = isRipple
      ? {
          ripple: wordSaid(
            [ripple.groups?.size, ripple.groups?.hz].filter(Boolean).join(" "),
            from + end + read[0].length,
          ),
        }
      : {};
    return [{ procedure: kindOfPlaced("rail-volts"), cells: { rail: name, dc: value, ...rippled, ...note } }];
  });
}
