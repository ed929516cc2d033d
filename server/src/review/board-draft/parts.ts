// The parts that logs tell of. Of a designator the number that most logs give is written, and what another says stands
// behind it in words: two logs that disagree are asked about, and not decided between in silence.

import { defined } from "../../base/defined";
import { sameNumber } from "../../judge/stated/parts";
import { idOf } from "../../knowledge/board-file";
import type { DraftPart } from "../../knowledge/board-file/draft";
import { boardIndex } from "../../knowledge/board-index";
import type { Library } from "../../knowledge/library";
import { inFull, normalPart } from "../../knowledge/part-number";
import type { Board } from "../../knowledge/types";
import { tablesOf } from "../../log/document";
import type { PartStated } from "../../log/stated/statement";
import { type DraftLog, type DraftSaying, logLineSource, ofKind } from "./sayings";

/** What one log says of one part: its first word, filled in by the later ones. */
interface Word {
  readonly stated: PartStated;
  readonly from: string;
  /** What was fitted there and is another number. */
  readonly fitted?: { readonly device: string; readonly from: string };
}

/** By the letters of the designator, then by its number. */
export function draftParts(
  logs: readonly DraftLog[],
  sayings: readonly DraftSaying[],
  base: Board,
  library: Library,
): DraftPart[] {
  const stated = ofKind(sayings, "part");
  const byRef = new Map<string, Word[]>();
  for (const log of logs) {
    for (const [key, word] of wordsOf(
      stated.filter((saying) => saying.log === log),
      library,
    )) {
      const words = byRef.get(key);
      if (words) words.push(word);
      else byRef.set(key, [word]);
    }
  }
  const parts = [...byRef.values()].map((words) => draftPart(words, base, library));
  const known = new Set(byRef.keys());
  const read = withoutNumber(logs, known, base);
  const all = [...parts, ...read];
  return [...all, ...joined(sayings, new Set(all.map(({ ref }) => ref.toUpperCase())), base)].sort((a, b) =>
    byDesignator(a.ref, b.ref),
  );
}

function wordsOf(sayings: readonly DraftSaying<PartStated>[], library: Library): Map<string, Word> {
  const words = new Map<string, Word>();
  const isFitted = ({ statement }: DraftSaying<PartStated>): boolean => statement.by === "fitted";
  // What was read tells what the place calls for before what was put in later.
  const ranked = [...sayings.filter((one) => !isFitted(one)), ...sayings.filter(isFitted)];
  for (const saying of ranked) {
    const { statement, from } = saying;
    const key = statement.ref.toUpperCase();
    const word = words.get(key);
    const { device } = statement;
    if (!word) words.set(key, { stated: statement, from });
    else if (isFitted(saying) && word.stated.device !== undefined && device !== undefined) {
      if (!word.fitted && !sameNumber(word.stated.device, device, library))
        words.set(key, { ...word, fitted: { device, from } });
    } else words.set(key, { ...word, stated: { ...statement, ...word.stated } });
  }
  return words;
}

function draftPart(words: readonly Word[], base: Board, library: Library): DraftPart {
  const [first] = words as readonly [Word, ...Word[]];
  const numbers = votes(words, library);
  const [most, next] = numbers;
  const isTied = most !== undefined && next !== undefined && most.words.length === next.words.length;
  const told = isTied ? first : (most?.words[0] ?? first);
  const { device: typed, value, package: body, circuit, note } = filled(told, words);
  const device = typed === undefined || isTied ? undefined : asPrinted(typed, library);
  const others = isTied ? numbers : numbers.slice(1);
  const howSaid = told.stated.by === "fitted" && device !== undefined ? ", as it was fitted" : "";
  const fitted = isTied ? words.find((word) => word.fitted)?.fitted : fittedOtherwise(words, told, library);
  const from = [
    `${told.from}${howSaid}`,
    ...(isTied ? ["the logs do not agree"] : []),
    ...others.map((other) => `${other.device} in ${other.words[0]?.from}`),
    ...(fitted ? [`${fitted.device} fitted in ${fitted.from}: allow it under fits?`] : []),
  ].join("; ");
  return defined({
    ref: refOf(told.stated.ref, base),
    device,
    value,
    package: body,
    circuit: circuit === undefined ? undefined : circuitId(circuit, base),
    note,
    from,
  });
}

/** The first other number that was fitted where `told` was read. */
function fittedOtherwise(words: readonly Word[], told: Word, library: Library): Word["fitted"] {
  const { device, by } = told.stated;
  if (device === undefined || by === "fitted") return undefined;
  return words
    .flatMap(({ stated, from, fitted }) => [
      ...(fitted ? [fitted] : []),
      ...(stated.by === "fitted" && stated.device !== undefined ? [{ device: stated.device, from }] : []),
    ])
    .find((one) => !sameNumber(device, one.device, library));
}

/**
 * Of a number given by several logs the first word counts; the number given most comes first. What one board got fitted
 * is no vote against what was read on another.
 */
function votes(words: readonly Word[], library: Library): { device: string; words: Word[] }[] {
  const found: { device: string; words: Word[] }[] = [];
  const told = words.filter(({ stated }) => stated.device !== undefined);
  const read = told.filter(({ stated }) => stated.by !== "fitted");
  for (const word of read.length > 0 ? read : told) {
    const { device } = word.stated;
    if (device === undefined) continue;
    const same = found.find((one) => sameNumber(one.device, device, library));
    if (same) same.words.push(word);
    else found.push({ device, words: [word] });
  }
  return found.sort((a, b) => b.words.length - a.words.length);
}

/** What the word that counts leaves open, the other logs may tell. */
function filled(told: Word, words: readonly Word[]): PartStated {
  const rest = words.map(({ stated: { device: _, ...more } }) => more);
  return Object.assign({}, ...rest.reverse(), told.stated);
}

/** "LS139" is written out; any other number stays as somebody read it off the part. */
function asPrinted(device: string, library: Library): string {
  const full = inFull(normalPart(device));
  return full !== normalPart(device) && library.device(full) ? full : device;
}

/** As the board file has it, else in capitals as boards are printed. */
export const refOf = (typed: string, base: Board): string =>
  boardIndex(base).part(typed)?.ref ??
  (/^[a-z]{1,4}\d|^\d{1,2}[a-z]/i.test(typed) ? typed.toUpperCase() : typed);

/** A circuit named in words is the board file's of that title, or gets an id of its own. */
export function circuitId(words: string, { circuits }: Board): string {
  if (circuits.has(words)) return words;
  const plain = words.trim().toLowerCase();
  const titled = [...circuits.values()].find(({ title }) => title.toLowerCase() === plain);
  return titled?.id ?? idOf(words);
}

const DESIGNATOR = /^[A-Za-z]{1,4}\d{1,4}[A-Za-z]?$/;

/**
 * Parts that were read or worked on, and of which no log tells what they are: that they are there is known all the same. One
 * that a single row names is a guess where it is another part's number the wrong way round.
 */
function withoutNumber(logs: readonly DraftLog[], known: ReadonlySet<string>, base: Board): DraftPart[] {
  const there = boardIndex(base);
  const rows = new Map<string, { count: number; from: string }>();
  for (const log of logs) {
    for (const { start, table } of tablesOf(log.doc)) {
      for (const { cells } of table.rows) {
        const { ref } = cells;
        if (!ref || !DESIGNATOR.test(ref.text)) continue;
        const key = ref.text.toUpperCase();
        const seen = rows.get(key);
        if (seen) seen.count += 1;
        else if (!known.has(key) && !there.part(key))
          rows.set(key, { count: 1, from: logLineSource(log, start + ref.span.start) });
      }
    }
  }
  const others = new Set([...known, ...[...base.parts.keys()].map((ref) => ref.toUpperCase())]);
  return [...rows].map(([ref, { count, from }]) => {
    const turned = count === 1 ? [...others].find((other) => isTurned(ref, other)) : undefined;
    return turned === undefined
      ? { ref, from: `${from}, which does not tell what it is` }
      : { ref, from: `${from}; or is it ${turned}?`, guess: true };
  });
}

/** Parts that are only named as an end of what was found joined. */
function joined(sayings: readonly DraftSaying[], known: ReadonlySet<string>, base: Board): DraftPart[] {
  const there = boardIndex(base);
  const found = new Map<string, DraftPart>();
  for (const { statement, from } of ofKind(sayings, "link")) {
    for (const end of statement.ends) {
      const ref = "ref" in end ? refOf(end.ref, base) : undefined;
      if (ref === undefined || known.has(ref.toUpperCase()) || found.has(ref) || there.part(ref)) continue;
      found.set(ref, { ref, from: `${from}, which does not tell what it is` });
    }
  }
  return [...found.values()];
}

/** U41 and U14: the same figures in another order. */
const isTurned = (a: string, b: string): boolean =>
  a !== b && a.length === b.length && [...a].sort().join("") === [...b].sort().join("");

/** U2 before U10, C9 before U1, and places such as 2C by their number. */
export function byDesignator(a: string, b: string): number {
  const [one, other] = [piecesOf(a), piecesOf(b)];
  return (
    compare(one.letters, other.letters) ||
    one.number - other.number ||
    compare(one.rest, other.rest) ||
    compare(a, b)
  );
}

function piecesOf(ref: string): { letters: string; number: number; rest: string } {
  const [, letters = "", digits = "", rest = ""] = /^([A-Za-z]*)(\d*)(.*)$/.exec(ref) ?? [];
  return { letters: letters.toUpperCase(), number: Number(digits), rest: rest.toUpperCase() };
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
