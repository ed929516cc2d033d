// Pins with what was read there, in running words and lists: "U11 pin 1 0.00 V, pins 2 and 3 both 4.1 V", "- U4 p8: pulsing",
// "U16: 2 is high, 1, 3 and 4 are low", "collector of Q5 18.7 V". Words that are common practice, no source.
import { boardIndex } from "../../../../knowledge/board-index";
import type { Library } from "../../../../knowledge/library";
import type { Board } from "../../../../knowledge/types";
import { disconnectionsIn } from "../../../../log/disconnections";
import { kindOfPlaced } from "../../../../log/kinds";
import { stateOf } from "../../../../quantity/words";
import { boardPinIn } from "../place-words";
import type { Sentence } from "../sentences";
import { LIST, numbersListed, plainlySaid, type SaidRow, type Word, wordSaid } from "./said";

const REF = "[A-Z]{1,3}\\d{1,3}";
const LEG = "base|collector|emitter|cathode|anode|band";
const PIN = "(?:pins?|legs?|terminals?|contacts?)\\s*\\.?";
const FIGURE = "[-\\u2212]?\\s?\\d*[.,]?\\d+(?![\\w.,]*\\d)";
const UNIT = "mV|V|kohm|k\\u03a9|Mohm|ohms?|\\u03a9|MHz|kHz|Hz";
const STATE =
  "(?:(?:stuck|stays?|stayed|always|solid|steady|held|sits?|stands?)\\s+)?(?:high|low|hi|lo)|puls(?:es|ing|e)|toggl(?:es?|ing)|floats|floating|tri-?state";

/** One after the other along a sentence; the first that fits at a place counts. */
const TOKENS: readonly (readonly [kind: string, pattern: string])[] = [
  [
    "of",
    `(?:(?:${PIN})\\s*(?<pins>${LIST})|(?<leg>${LEG}))\\s+(?:of|on)\\s+(?:the\\s+)?(?<ref>${REF})(?![\\w-])`,
  ],
  [
    "at",
    `(?<ref>${REF})(?:'s)?(?:\\s*[-./(]\\s*|,?\\s+${PIN}\\s*|\\s+p\\.?\\s?)(?<pins>\\d{1,2})\\)?(?![\\w]|[.,]\\d|\\s*(?:${UNIT}|k|M|uF|nF)\\b)`,
  ],
  ["at", `(?<ref>${REF})(?:'s)?\\s+${PIN}\\s*(?<pins>${LIST})`],
  ["at", `(?<ref>${REF})(?:'s)?\\s+(?<leg>${LEG})\\b(?:\\s*\\(\\d\\))?`],
  ["ref", `(?<ref>${REF})(?:'s)?(?![\\w-])`],
  ["own", `(?:${PIN}\\s*|\\bp\\.?\\s?)(?<pins>${LIST})(?![\\w])`],
  ["own", `(?<leg>${LEG})\\b(?:\\s*\\(\\d\\))?`],
  ["value", `(?<value>${FIGURE}\\s?(?:(?:to|-|\\u2013)\\s?${FIGURE}\\s?)?(?<unit>${UNIT}))(?![\\w/])`],
  ["value", `(?<state>${STATE})(?![\\w-])`],
  [
    "bare",
    `(?<pins>${LIST})(?!\\d|[.,]\\d)(?=\\s*(?:\\([^()]{0,16}\\))?\\s*(?:[:=]|is|are|at|sits?|both|all|=)?\\s*(?:${FIGURE}(?![\\d])|OL\\b|${STATE}|pulse\\b|stay))(?![.,]\\d)`,
  ],
  [
    "value",
    `(?<value>[-\\u2212]?\\d*[.,]\\d+|OL)(?![\\w.,]*\\d|\\s*(?:k|M|R|uF|nF|pF|A|mA|s|ms|W|%|times|x)\\b|[kMR%])`,
  ],
  ["stop", "[;!?]|\\.(?=\\s|$)"],
];
const SCANNERS = TOKENS.map(([kind, pattern]) => [kind, new RegExp(pattern, "y")] as const);
/** What is between a pin and its state and turns it round, or makes it what was done. */
const TURNED = /\b(?:not|never|no longer|no|goes|went|gets|got|pulls?|pulled|active|called|when)\b|n't\b/i;
/** "from U11-1 to +5 V": the figure is the name of a rail. */
const TO_RAIL = /\b(?:to|against|onto)\s*[+-]?$|[+]$/i;
/** More words between a pin and a figure are about something else. */
const MOST_BETWEEN = 34;
/** The leads on the part itself, with nothing on: no level. */
const BY_ITSELF =
  /\b(?:red|black) on\b|\b(?:supply|power|mains) (?:is |was )?off\b|\bone way\b|\bother way\b/i;
/** "-5V" by itself is a rail's name, and what ripples is no level. */
const NO_LEVEL = /^[+\u2212-]\s?\d+\s?V$/i;
const DROP = /\b(?:diode|drops?)\b/i;
const TO_GROUND = /\b(?:ground|gnd|0 V|shorts?|shorted)\b/i;

interface Around {
  readonly board: Board;
  readonly library: Library;
  /** What figures without a unit are under this heading. */
  readonly plain: "pin-volts" | "pin-drop" | "pin-ohms" | undefined;
  readonly heading: string;
  /** The part that the heading names. */
  readonly ref: string | undefined;
}

interface At {
  readonly ref: string;
  readonly pin: Word;
}

interface Value {
  readonly typed: string;
  readonly unit: string | undefined;
  readonly word: Word;
}

const AT = /^\s*(?:at|on)\s+(?:the\s+)?$/i;
/** Between the pins of a list. */
const JOINED = /^[\s,/&]*(?:and|both|also)?\s*$/i;

const isOfPin = (between: string): boolean =>
  between.length <= MOST_BETWEEN &&
  !TURNED.test(between) &&
  !TO_RAIL.test(between) &&
  !/\w\s*[,:]\s*\w+\s+\w+\s+\w+/.test(between);

/** Nothing of a sentence about something that was taken off: what that did is heard by itself. */
export function pinsSaid({ text: whole, at: from }: Sentence, around: Around): SaidRow[] {
  const text = plainlySaid(whole);
  if (text === undefined || disconnectionsIn(text).length > 0) return [];
  const rows: SaidRow[] = [];
  let ref: string | undefined = around.ref;
  let pending: At[] = [];
  let behind = 0;
  // "4.97 V at pin 16" has the figure first.
  let ahead: { readonly value: Value; readonly end: number } | undefined;
  const give = (pins: readonly At[], { typed, unit, word }: Value): void => {
    rows.push(...pins.flatMap((one) => rowOf(one, typed, unit, word, text, around) ?? []));
  };
  let isRead = false;
  let at = 0;
  while (at < text.length) {
    const token = tokenAt(text, at);
    if (!token) {
      at += 1;
      continue;
    }
    const { kind, match } = token;
    const { groups = {} } = match;
    const end = at + match[0].length;
    if (kind === "stop") pending = [];
    else if (kind === "ref") {
      ref = groups.ref;
      pending = [];
      isRead = false;
    } else if (kind === "value") {
      const between = text.slice(behind, at);
      const value: Value = { typed: match[0], unit: groups.unit, word: wordSaid(match[0].trim(), from + at) };
      if (pending.length > 0 && !isRead && isOfPin(between)) {
        give(pending, value);
        isRead = true;
        ahead = undefined;
      } else ahead = { value, end };
    } else if (groups.ref !== undefined || ref !== undefined) {
      ref = groups.ref ?? ref;
      const pins = groups.leg !== undefined ? [groups.leg] : numbersListed(groups.pins ?? "").map(String);
      const own = pins.flatMap((pin) => (ref === undefined ? [] : [{ ref, pin: wordSaid(pin, from + at) }]));
      const isOneMore = !isRead && JOINED.test(text.slice(behind, at));
      pending = isOneMore ? [...pending, ...own] : own;
      isRead = false;
      behind = end;
      if (ahead && AT.test(text.slice(ahead.end, at))) {
        give(pending, ahead.value);
        isRead = true;
      }
      ahead = undefined;
    }
    at = Math.max(end, at + 1);
  }
  return rows;
}

function tokenAt(text: string, at: number): { kind: string; match: RegExpExecArray } | undefined {
  // In the middle of a word nothing begins.
  if (at > 0 && /[\w.-]/.test(text[at - 1] ?? "") && /[\w.]/.test(text[at] ?? "")) return undefined;
  for (const [kind, pattern] of SCANNERS) {
    pattern.lastIndex = at;
    const match = pattern.exec(text);
    if (match) return { kind, match };
  }
  return undefined;
}

function rowOf(
  { ref, pin }: At,
  typed: string,
  unit: string | undefined,
  value: Word,
  text: string,
  { board, library, plain, heading }: Around,
): SaidRow | undefined {
  const part = boardIndex(board).part(ref);
  const place = part && boardPinIn(`${part.ref} ${pin.text}`, board, library);
  if (!part || !place || place.ref !== part.ref) return undefined;
  const names = { ref: { ...pin, text: part.ref }, pin: { ...pin, text: place.pin } };
  const words = `${heading} ${text}`;
  if (stateOf(typed.trim()) !== undefined)
    return { procedure: kindOfPlaced("pin-state"), cells: { ...names, state: value } };
  if (unit?.endsWith("Hz")) return { procedure: "frequency", cells: { ...names, frequency: value } };
  const isVolts = unit?.endsWith("V") === true;
  const kind = isVolts
    ? plain === "pin-drop" || DROP.test(words)
      ? "pin-drop"
      : "pin-volts"
    : unit !== undefined
      ? plain === "pin-ohms" || TO_GROUND.test(words)
        ? "pin-ohms"
        : undefined
      : plain;
  if (kind === undefined) return undefined;
  if (kind === "pin-volts" && (BY_ITSELF.test(text) || NO_LEVEL.test(typed.trim()))) return undefined;
  const measure = kind === "pin-drop" ? "drop" : kind === "pin-ohms" ? "resistance" : "level";
  return { procedure: kindOfPlaced(kind), cells: { ...names, [measure]: value } };
}
