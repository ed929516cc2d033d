// Every kind of table that the code knows more of than its procedure says.
import { ALL } from "./all";
import type { KindRecord, PlacedReading, TableKind } from "./kind";

export { isOfWork, type PlacedReading, type TableKind } from "./kind";

/** In the order of the job, which is that of a new log: look, read unpowered, power, find the fault, mend, prove. */
export const KINDS: readonly KindRecord[] = [...ALL].sort((a, b) => a.inJob - b.inJob);

/** Of a workspace's own procedures nothing is known but their columns. */
const OWN: TableKind = {
  holds: "readings",
  place: "columns",
  judgedBy: "expected",
  observedAs: "nothing",
  acrossJobs: "expected",
};

const known = new Map<string, TableKind>(KINDS.map((kind) => [kind.id, kind]));

/** Whether more is known of it than its columns. */
export const hasRecord = (procedure: string): boolean => known.has(procedure);

/**
 * The kind of a procedure's tables, by its id. Of a workspace's own procedure with another id nothing is known but its
 * columns.
 */
export const kindOf = (procedure: string): TableKind => known.get(procedure) ?? OWN;

const byPlaced = new Map<PlacedReading, string>(
  KINDS.flatMap(({ id, placed = [] }) => placed.map((what) => [what, id] as const)),
);

/** The id of the kind that a reading is of where nothing but its place and its unit tells it; throws where no record has it. */
export function kindOfPlaced(what: PlacedReading): string {
  const id = byPlaced.get(what);
  if (id === undefined) throw new Error(`No kind of table has ${what}.`);
  return id;
}
