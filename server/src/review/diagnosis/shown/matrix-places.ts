// Where a thing that a matrix shows stands: its nets, its names, its place in the log, and whether the machine was there.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import type { Crossing, MatrixLine } from "../../../compute/matrix/shape";
import type { Board, Matrix } from "../../../knowledge/types";
import { type Span, shift } from "../../../text/span";
import type { PhaseReview } from "../../matrix/log-review";
import type { LocatedObservation } from "../observation";

/** Undefined for a line that only a grid has named: nobody knows what is on it. */
export function netOf(
  { rows, columns }: Matrix,
  { kind, number }: MatrixLine,
  { nets }: Board,
): string | undefined {
  const name = (kind === "row" ? rows : columns)[number - 1];
  return name !== undefined && nets.has(name) ? name : undefined;
}

/** A test on the bare board has nothing of the machine in it. */
const BARE =
  /\b(?:loom|harness|cables?|wiring|machine|cabinet|keypad|keyboard|panel|playfield|ribbon|plugs?|J\d+(?:\s*(?:,|and|&)\s*J\d+)*)\s+(?:is\s+|are\s+|was\s+|were\s+|now\s+)?(?:unplugged|off|out|disconnected|pulled)\b|\b(?:unplugged|without|bare board|board (?:is |was )?(?:by itself|alone|on its own)|(?:on|at) (?:the|my) (?:bench|table)|bench(?=\s*(?:[,;:(]|$))|out of the (?:machine|cabinet)|at the (?:board's )?(?:own )?(?:headers?|J\d+)|(?:bridged|linked|joined|shorted) (?:by hand|with|through)|(?:clip|diode|jumper|test|bridging|link) (?:lead|wire)|(?:bridged|linked|joined) (?:at the (?:plugs?|pins?|sockets?)|pin (?:by|to|for) pin)|no (?:loom|harness)|(?:switch|button|test|lamp|dummy)[- ]?box(?:es)?|(?:switch|lamp|load) (?:simulator|board|jig))\b/i;
/** With all of it. */
const WHOLE =
  /\b(?:in|inside|on|with)\s+(?:the\s+|its\s+)?(?:whole\s+)?(?:machine|cabinet|game|alley|loom|harness)(?!\s+(?:is|off|out|un|dis|pulled))\b/i;

/** By its heading, else by the words that lead over to it. */
export const isBare = ({ tables }: Pick<PhaseReview, "tables">): boolean =>
  tables.every(({ table, said }) => {
    const heading = table.section.heading?.text ?? "";
    const words = said.length > MOST_WORDS ? "" : said;
    return BARE.test(heading) ? !WHOLE.test(words) : BARE.test(words) && !WHOLE.test(words);
  });

/** A longer paragraph tells a story, and not how the table was taken. */
const MOST_WORDS = 200;

export const nameOf = ({ log }: PhaseReview, { row, column }: Crossing): string => {
  const named = log.matrix.cells[row - 1]?.[column - 1];
  return `row ${row}, column ${column}${named ? ` (${named})` : ""}`;
};

export const thing = ({ log }: PhaseReview): string => (log.matrix.kind === "switch" ? "switch" : "lamp");

export function placed(
  { tables, phase }: PhaseReview,
  key: string,
  span: Span | undefined,
  finding: SignFinding,
): LocatedObservation[] {
  const [first] = tables;
  if (!first) return [];
  return [
    defined({
      key,
      what: finding.of,
      table: first.table,
      span: span ?? shift(first.table.span, first.start),
      refs: [],
      phase,
      finding,
    }),
  ];
}

export function netsAt({ log }: PhaseReview, { row, column }: Crossing, board: Board): readonly string[] {
  return (
    [
      { kind: "row", number: row },
      { kind: "column", number: column },
    ] as const
  ).flatMap((line) => netOf(log.matrix, line, board) ?? []);
}

/** Names of all its lines that the board has. */
export const allNets = ({ rows, columns }: Matrix, { nets }: Board): readonly string[] =>
  [...rows, ...columns].filter((name) => nets.has(name));

/** Designators of the headers on them. */
export const headersOn = (names: readonly string[], { nets }: Board): string[] => [
  ...new Set(
    names.flatMap(
      (name) =>
        nets.get(name)?.pins.flatMap(({ ref }) => (/^(?:J|P|CN|CON|X)\d/i.test(ref) ? ref : [])) ?? [],
    ),
  ),
];
