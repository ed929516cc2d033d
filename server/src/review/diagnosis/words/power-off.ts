// That the power was off while something was read, by its heading, its remark or the header over it. Words that are common
// practice, no source.

import type { Reading } from "../../../log/model";
import { headerOver } from "./header-over";

// A header without its plug is no board without its power.
const PLUG =
  "(?:[JPX]\\d{1,3}|CON?\\d{1,3}|looms?|harness|connectors?|headers?|plugs?|cables?|ribbon|machine|panel|keypad|coils?|lamps?|display)";
const TIME = "(?:s|sec(?:ond)?s?|min(?:ute)?s?|h(?:ou)?rs?|h|days?|moment|while)";
const SWITCH = "(?:the )?(?:switch|mains|power|plug)";
const OFF = new RegExp(
  [
    "^\\s*off\\b(?! (?:ground|scale|the|its|by)\\b)",
    "[,;:(]\\s*off\\s*[,;)]?\\s*(?:$|\\d)",
    "\\b(?:after|since|with|when) (?:it (?:was |is )?|being )?off\\b(?! (?:ground|scale|the|its|by)\\b)",
    `\\b${TIME} (?:after|behind|from|past) (?:${SWITCH}|off\\b)`,
    "\\boff for (?:\\d|a |an |one |some |half )",
    "\\bswitch(?:ed|ing)?[- ]?off\\b",
    "\\b(?:(?:power(?:ed)?|board|supply|supplies|mains)(?: is| was)?|power)[- ]?off\\b",
    "\\b(?:un-?powered|not powered|over ?night|without power|no power)\\b",
    `(?<!\\b${PLUG}\\s+(?:is |are |was |were |all )?)\\bunplugged\\b`,
  ].join("|"),
  "i",
);

/** A sentence says so itself. */
export const saysPowerOff = (words: string): boolean => OFF.test(words);

/** The heading or one that it stands under, the row's remark or the header over it says that the power was off meanwhile. */
export const isPowerOff = (reading: Pick<Reading, "table" | "subject" | "cell">): boolean =>
  [
    reading.table.section.heading?.text,
    ...(reading.table.section.outerWords ?? []),
    reading.subject.note?.text,
    headerOver(reading)?.text,
  ].some((words) => words !== undefined && OFF.test(words));
