// One finding for a table that is wrong as a whole.

import type { LogTable, Reading } from "../../../log/model";
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
