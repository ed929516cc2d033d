// One finding for a table that is wrong as a whole.

import type { LogTable, Reading } from "../../../log/model";
import { shift } from "../../../text/span";
import type { LocatedObservation, Observation } from "../observation";

/** What is said of such a table: of what, what went wrong, how that shows, and what to do. */
export interface TableWords {
  readonly of: string;
  readonly mistake: string;
  readonly says: string;
  readonly again: string;
}

/** Designators that readings are of, each once. */
export const refsOf = (readings: readonly Reading[]): string[] => [
  ...new Set(readings.flatMap(({ subject }) => subject.ref?.text ?? [])),
];

/** Designators or rails that readings are of, each once. */
export const placesRead = (readings: readonly Reading[]): string[] => [
  ...new Set(readings.flatMap(({ subject }) => subject.ref?.text ?? subject.rail?.text ?? [])),
];

/** Tables that are told to be wrong as a whole already. */
export const tablesTold = (all: readonly LocatedObservation[]): ReadonlySet<LogTable> =>
  new Set(all.flatMap(({ finding, table }) => (finding?.kind === "table" && table ? table : [])));

/** In place of what those readings say; undefined where there are none. */
export function wholeTable(
  table: LogTable,
  readings: readonly Reading[],
  refs: readonly string[],
  words: TableWords,
): Observation | undefined {
  const [first] = readings;
  if (!first) return undefined;
  return {
    key: `table ${table.procedure.id} ${refs.join(" ")}`.toUpperCase(),
    what: words.of,
    table,
    span: first.cell.span,
    refs: [],
    finding: { kind: "table", refs, ...words },
  };
}

/**
 * The observations without those of the tables, and one finding for each of them in their place.
 * @param tables each with the first of its observations, and with the parts it goes for where those are not all
 */
export const inPlaceOf = (
  all: readonly LocatedObservation[],
  tables: ReadonlyMap<LogTable, LocatedObservation & { readonly only?: ReadonlySet<string> }>,
  words: (refs: readonly string[]) => TableWords,
): readonly LocatedObservation[] =>
  tables.size === 0
    ? all
    : [
        ...all.filter((one) => {
          const told = one.table && tables.get(one.table);
          return !told || (told.only !== undefined && !partsOf(one).some((ref) => told.only?.has(ref)));
        }),
        ...[...tables].flatMap(([table, { span, phase, only }]): LocatedObservation[] => {
          const readings = only
            ? table.readings.filter(({ subject }) => only.has(subject.ref?.text.toUpperCase() ?? ""))
            : table.readings;
          const refs = refsOf(readings);
          const one = wholeTable(table, readings, refs, words(refs));
          return one ? [{ ...one, span, phase }] : [];
        }),
      ];

/** In capitals: what the observation is of. */
const partsOf = ({ refs, finding, level }: LocatedObservation): readonly string[] =>
  [
    ...refs,
    level?.ref,
    ...(finding?.kind === "gate" || finding?.kind === "pin" || finding?.kind === "sign" ? [finding.ref] : []),
    ...(finding?.kind === "sign"
      ? [...(finding.refs ?? []), ...(finding.pins ?? []).map(({ ref }) => ref)]
      : []),
  ].flatMap((ref) => ref?.toUpperCase() ?? []);

/** What was read of a table, or of some places in it, that is no reading of those places. */
export interface Misread {
  readonly readings: readonly Reading[];
  readonly table: LogTable;
  /** Offset of the table's block in the document. */
  readonly start: number;
  readonly phase: number;
  readonly refs: readonly string[];
  readonly words: (refs: readonly string[]) => TableWords;
}

/** What a part read as if it had been counted from its other end is put down to. */
export const FROM_WRONG_END = "the pins were counted from the wrong end";

export const COUNTED = (refs: readonly string[]): TableWords => ({
  of: `the pins of ${refs.join(", ")}`,
  mistake: FROM_WRONG_END,
  says: `What ${refs.join(", ")} reads fits the board where its pins are counted another way.`,
  again: `Find pin 1 of ${refs.join(", ")}, then move the readings or take them again`,
});

export const SHIFTED = (refs: readonly string[]): TableWords => ({
  of: `the readings of ${refs.join(", ")}`,
  mistake: "the column was shifted by a row",
  says: `What ${refs.join(", ")} read fits where the column is moved by a row.`,
  again: `Move the column by one row, or read ${refs[0]} again`,
});

/** The observations without those of such readings, and one finding for each in their place. */
export function inPlaceOfReadings(
  all: readonly LocatedObservation[],
  found: readonly Misread[],
): readonly LocatedObservation[] {
  if (found.length === 0) return all;
  const gone = found.map(({ readings, table, start }) => ({
    table,
    cells: new Set(readings.map(({ cell }) => cell.span.start + start)),
    isWhole: table.readings.every((reading) => readings.includes(reading)),
  }));
  const isGone = ({ table, span }: LocatedObservation): boolean =>
    gone.some((one) => one.table === table && (one.isWhole || one.cells.has(span.start)));
  const told = found.flatMap(({ readings, table, start, phase, refs, words }): LocatedObservation[] => {
    const one = wholeTable(table, readings, refs, words(refs));
    return one ? [{ ...one, span: shift(one.span, start), phase }] : [];
  });
  return [...all.filter((one) => !isGone(one)), ...told];
}

const DRIFTS =
  /\b(?:rising|falling|climb\w*|creep\w*|drift\w*|sink\w*|(?:runs?|counts?|keeps?|goes|going) (?:up|down|on|rising|falling|climbing))\b/i;

/** It goes on changing while it is read. */
export const isCreeping = ({ value, subject }: Reading): boolean =>
  (value.kind === "bound" && value.drift !== undefined) ||
  DRIFTS.test(value.typed) ||
  DRIFTS.test(subject.note?.text ?? "");
