// One finding for a table that is wrong as a whole.

import type { LogTable, Reading } from "../../../log/model";
import type { Observation } from "../observation";

/** Designators that readings are of, each once. */
export const refsOf = (readings: readonly Reading[]): string[] => [
  ...new Set(readings.flatMap(({ subject }) => subject.ref?.text ?? [])),
];

/** In place of what those readings say; undefined where there are none. */
export function wholeTable(
  table: LogTable,
  readings: readonly Reading[],
  refs: readonly string[],
  words: { readonly of: string; readonly mistake: string; readonly says: string; readonly again: string },
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
