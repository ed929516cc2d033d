// Two outputs or digits of which each comes with the other: their lines touch somewhere, at whichever of their stages.

import type { SignFinding } from "../../../compute/diagnosis/types";
import type { Board } from "../../../knowledge/types";
import type { LogTable, Reading } from "../../../log/model";
import type { Observation } from "../observation";

const COMES =
  "(?:lights?(?: up)?|lit|comes?(?: on| in| up)?|glows?|pulls?(?: in)?|fires?|goes|shows?|is on|on|does)?";
const AS_WELL = "(?:with it|too|as well|also|the same|together|along)";
const NUMBER = "(?:digit|coil|lamp|output|solenoid|position|display|no\\.?|#)? ?(\\d{1,2})";
const spoken = (name: string): RegExp =>
  new RegExp(
    `\\b${name} ${COMES} ?${AS_WELL}\\b|\\b(?:same as|together with|along with|like|and) ${name}\\b`,
    "i",
  );
const OTHER_NUMBER = spoken(NUMBER);

/** The other one that a row's words say came as well, by its number. */
export function comesWith({ value, subject }: Reading): string | undefined {
  const said = `${value.typed}; ${subject.note?.text ?? ""}`.replace(/\s+/g, " ");
  const found = OTHER_NUMBER.exec(said);
  return found?.[1] ?? found?.[2];
}

/** A line by its name, with the other that was said to come with it. */
export interface Pair {
  readonly own: string;
  readonly other: string;
  readonly reading: Reading;
}

/**
 * One observation for each two that were said to come together.
 * @param netsOf all nets of the line of that name, in the same order for each name
 */
export function alikeObservations(
  table: LogTable,
  what: string,
  pairs: readonly Pair[],
  netsOf: (name: string) => readonly string[],
): Observation[] {
  const seen = new Set<string>();
  return pairs.flatMap(({ own, other, reading }): Observation[] => {
    const names = [own, other].sort();
    const of = `${what} ${names.join(" and ")}`;
    const [one, two] = names.map((name) => netsOf(name));
    if (own === other || seen.has(of) || !one || !two) return [];
    seen.add(of);
    const nets = one.flatMap((name, i) => (two[i] === undefined ? [] : [name, two[i]]));
    if (nets.length === 0) return [];
    return [
      {
        key: `${table.procedure.id} alike ${of}`.toUpperCase(),
        what: of,
        table,
        span: reading.cell.span,
        refs: [],
        finding: {
          kind: "sign",
          sign: "lines-alike",
          nets,
          of,
          says: `${names.join(" and ")} come together.`,
        } satisfies SignFinding,
      },
    ];
  });
}

/**
 * Outputs that were fired one by one: "Coil 3" with "4 pulls in as well". Their lines are known by the names of nets that
 * end with their numbers.
 */
export function firedTogether(table: LogTable, board: Board | undefined): Observation[] {
  if (!board) return [];
  const pairs = table.readings.flatMap((reading): (Pair & { readonly word: string })[] => {
    const [, word = "", own] =
      /^\s*([a-z]+)?\s*#?(\d{1,2})\s*$/i.exec(reading.subject.item?.text ?? "") ?? [];
    const other = comesWith(reading);
    return own === undefined || other === undefined ? [] : [{ own, other, reading, word }];
  });
  const [first] = pairs;
  if (!first) return [];
  const word = /lamp|light/i.test(`${first.word} ${table.section.heading?.text ?? ""}`) ? "LAMP" : "COIL";
  const named = new RegExp(`${word}.*_\\d+$`, "i");
  const netsOf = (number: string): readonly string[] =>
    stagesOf(
      board,
      number,
      [...board.nets.keys()].filter((name) => named.test(name) && name.endsWith(`_${number}`)),
    );
  return alikeObservations(table, word.toLowerCase(), pairs, netsOf);
}

/** The nets of a line and, through its resistors and transistors, those of its other stages: they end with its number. */
export function stagesOf(board: Board, number: string, own: readonly string[]): readonly string[] {
  const isOf = new RegExp(`_${number}(?:_[A-Z]+)?$`, "i");
  const pinsOf = new Map<string, number>();
  for (const { pins } of board.nets.values())
    for (const { ref } of pins) pinsOf.set(ref, (pinsOf.get(ref) ?? 0) + 1);
  const found = new Set(own);
  const refs = new Set<string>();
  for (const name of found) {
    for (const { ref } of board.nets.get(name)?.pins ?? []) {
      if (refs.has(ref) || (pinsOf.get(ref) ?? 0) > SMALL) continue;
      refs.add(ref);
      for (const net of board.nets.values())
        if (isOf.test(net.name) && net.pins.some((pin) => pin.ref === ref)) found.add(net.name);
    }
  }
  return [...board.nets.keys()].filter((name) => found.has(name));
}

/** Pins of a resistor, a transistor. */
const SMALL = 3;
