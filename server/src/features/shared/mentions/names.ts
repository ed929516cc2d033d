// The names that a text is searched for, and where in it they stand.
import { defined } from "../../../base/defined";
import { memo } from "../../../base/memo";
import { findRail } from "../../../judge/rail-name";
import type { Board } from "../../../knowledge/types";
import { type Span, span } from "../../../text/span";
import { isNameless } from "../describe";
import { type Entity, entityKey } from "./types";

interface Entry {
  readonly thing: Entity;
  /** The name as it is compared. */
  readonly name: string;
  /** Characters of the name before its first letter or digit: 1 for "+5V". */
  readonly lead: number;
}

/** Names by their first word, so that a text is gone through once however many there are. */
export interface NameIndex {
  readonly byWord: ReadonlyMap<string, readonly Entry[]>;
  has(thing: Entity): boolean;
  /** The rail that a cell for rails means, however it is typed. */
  rail?(typed: string): string | undefined;
}

export interface FoundName {
  readonly thing: Entity;
  readonly span: Span;
  readonly pin?: { readonly text: string; readonly span: Span };
}

const WORD = /[A-Za-z0-9_]+/g;

/** The things by the first word of their names, to be looked for in texts. */
export function nameIndex(things: readonly Entity[]): NameIndex {
  const byWord = new Map<string, Entry[]>();
  for (const thing of things) {
    const name = entityKey(thing);
    const first = /[A-Za-z0-9_]+/.exec(name);
    if (!first) continue;
    const entries = byWord.get(first[0].toUpperCase()) ?? [];
    entries.push({ thing, name, lead: first.index });
    byWord.set(first[0].toUpperCase(), entries);
  }
  // Of names that begin alike the longest is meant: "SW-3" before "SW".
  for (const entries of byWord.values()) entries.sort((a, b) => b.name.length - a.name.length);
  const keys = new Set(things.map((thing) => `${thing.kind} ${entityKey(thing)}`));
  return { byWord, has: (thing) => keys.has(`${thing.kind} ${entityKey(thing)}`) };
}

/**
 * Parts, nets and rails of a board: what logs name in their tables and words. A net that goes by one of its pins, or by
 * the rail that a log has named, is that pin or rail.
 */
export const namesOfBoard = memo((board: Board): NameIndex => {
  const own = nameIndex([
    ...[...board.parts.keys()].map((name): Entity => ({ kind: "parts", name })),
    ...[...board.nets.values()]
      .filter((net) => !isNameless(net) && !board.rails.get(net.name)?.byName)
      .map(({ name }): Entity => ({ kind: "nets", name })),
    ...[...board.rails.keys()].map((name): Entity => ({ kind: "rails", name })),
  ]);
  return { ...own, rail: (typed) => findRail(board, typed)?.name };
});

/** Told from an everyday word: in free words "A", "E" and "Start" are no nets. Circuits and the like are never meant there. */
export function standsOut({ kind, name }: Entity): boolean {
  if (kind === "parts" || kind === "device") return /\d/.test(name) || name.length > 2;
  if (kind !== "nets" && kind !== "rails") return false;
  return name.length > 1 && (/[^A-Za-z]/.test(name) || (name.length > 2 && name === name.toUpperCase()));
}

/**
 * Every name in a text from left to right. A name counts as a whole word only: no letter, digit or underscore beside it.
 * @param wanted which of the things may be meant here; the first that may wins
 */
export function findNames(
  text: string,
  within: Span,
  names: NameIndex,
  wanted: (thing: Entity) => boolean,
): FoundName[] {
  const found: FoundName[] = [];
  const part = text.slice(within.start, within.end);
  let done = 0;
  for (const { 0: word, index } of part.matchAll(WORD)) {
    if (index < done) continue;
    const match = names.byWord
      .get(word.toUpperCase())
      ?.find((entry) => wanted(entry.thing) && standsAt(part, index - entry.lead, done, entry));
    if (!match) continue;
    const start = index - match.lead;
    const end = start + match.name.length;
    if (match.thing.kind === "parts" && !isWordOfItsOwn(part, start, end, found.at(-1), within.start))
      continue;
    done = end;
    const pin = match.thing.kind === "parts" ? pinBehind(part, end) : undefined;
    if (pin) done = end + 1 + pin.length;
    found.push(
      defined({
        thing: match.thing,
        span: span(within.start + start, within.start + end),
        pin:
          pin === undefined
            ? undefined
            : { text: pin, span: span(within.start + end + 1, within.start + end + 1 + pin.length) },
      }),
    );
  }
  return found;
}

function standsAt(text: string, start: number, least: number, { thing, name }: Entry): boolean {
  if (start < least) return false;
  const there = text.slice(start, start + name.length);
  if (entityKey({ ...thing, name: there }) !== name) return false;
  // Nor is "RESET" the net of "/RESET".
  const before = text[start - 1] ?? " ";
  return !/[A-Za-z0-9_]/.test(before) && !/[A-Za-z0-9_]/.test(text[start + name.length] ?? " ");
}

/**
 * A designator is no part of a file's name, an address or a longer number: of "U14.jpg", "/U14/", "74-C4". Behind a
 * stroke or hyphen it counts where another name stands before that: "U12/U14", "C1-C4".
 */
function isWordOfItsOwn(
  text: string,
  start: number,
  end: number,
  last: FoundName | undefined,
  base: number,
): boolean {
  if (/^\.(?:jpe?g|png|gif|webp|svg|bin|rom|md|pdf|ya?ml)\b/i.test(text.slice(end, end + 6))) return false;
  const before = text[start - 1] ?? " ";
  if (before === "@" || before === "\\" || before === "." || before === "#") return false;
  if (before !== "/" && before !== "-") return true;
  if (last !== undefined && (last.pin?.span.end ?? last.span.end) === base + start - 1) return true;
  return /(?<![\w/.-])[A-Za-z]{1,4}\d{1,4}[A-Za-z]?[-/]$/.test(text.slice(Math.max(0, start - 12), start));
}

/** "3" behind "U14" in "U14.3", "U14-3" and "U14/3", which all say the pin. */
function pinBehind(text: string, end: number): string | undefined {
  return /^(?:\.[A-Za-z0-9_+~]+|[-/]\d{1,3}(?![\w]))/.exec(text.slice(end, end + 24))?.[0].slice(1);
}
