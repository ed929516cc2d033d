// What the trade calls what is done to a board, out of the words a row of work begins with.
import { namesReplacing } from "./words";

export const ACTIONS = [
  "replace",
  "socket",
  "reflow",
  "clean",
  "jumper",
  "cut",
  "remove",
  "fit-modification",
  "fit",
  "reprogram",
] as const;
/** What is done to a part or a board, whatever words say it. */
export type Action = (typeof ACTIONS)[number];

/** The action in words. */
export const ACTION_WORDS: Readonly<Record<Action, string>> = {
  replace: "replace",
  socket: "socket",
  reflow: "reflow",
  clean: "clean",
  jumper: "jumper",
  cut: "cut",
  remove: "remove",
  "fit-modification": "fit modification",
  fit: "fit",
  reprogram: "reprogram",
};

/** The first that fits counts, so "refitted modification" is a modification and "fitted a socket" a socket. */
const WORDS: readonly (readonly [RegExp, Action])[] = [
  [/\b(?:modif|mod\b|kit\b|retrofit)/i, "fit-modification"],
  [/\bre-?(?:program|burn|flash)|\b(?:program|burn|burnt|flash)/i, "reprogram"],
  [/\bsocket/i, "socket"],
  [/\bre-?(?:flow|solder)|\btouched up/i, "reflow"],
  [/\b(?:clean|wash|neutrali[sz]|scrub)/i, "clean"],
  [/\b(?:jumper|link|bridg|wire)/i, "jumper"],
  [/\bcut/i, "cut"],
  [/\b(?:remov|pull|desolder|unsolder|took (?:off|out)|take (?:off|out)|lifted (?:off|out))/i, "remove"],
  [/\b(?:fit|install|add)/i, "fit"],
];

/** Done or planned; undefined for words that name none of them. */
export function actionOf(typed: string): Action | undefined {
  if (namesReplacing(typed)) return "replace";
  return WORDS.find(([pattern]) => pattern.test(typed))?.[1];
}
