// When in a log something was repaired, so that what was read before and after it can be told apart.
import { type LogDocument, tablesOf } from "../log/document";
import type { LogTable } from "../log/model";
import { saysReplaced } from "../log/planned";

/** "Resistance to ground after cleaning", "Diode check again": later than what was read before it, repair or none. */
const AGAIN = /\b(?:after|again|second time|once more)\b/i;

export interface Repairs {
  /** How many tables of work stand before a table, or what its heading says of it. */
  readonly phases: ReadonlyMap<LogTable, number>;
  /** Designator in capitals to the last repair in which another part was put there, from 1. */
  readonly replaced: ReadonlyMap<string, number>;
  /** The same for any work on it. */
  readonly worked: ReadonlyMap<string, number>;
}

export function repairsIn(doc: LogDocument): Repairs {
  const phases = new Map<LogTable, number>();
  const replaced = new Map<string, number>();
  const worked = new Map<string, number>();
  let repairs = 0;
  for (const { table } of tablesOf(doc)) {
    if (table.procedure.id === "work") {
      const done = table.rows.filter(({ cells }) => cells.ref || cells.action);
      if (done.length > 0) repairs += 1;
      for (const { cells } of done) {
        const ref = cells.ref?.text.toUpperCase();
        if (ref === undefined) continue;
        worked.set(ref, repairs);
        if (saysReplaced(cells.action?.text ?? "")) replaced.set(ref, repairs);
      }
    }
    const { heading, qualifiers } = table.section;
    const { repair } = qualifiers;
    const again = AGAIN.test(heading?.text ?? "") ? 0.5 : 0;
    phases.set(table, repair === "before" ? 0 : repair === "after" ? Math.max(1, repairs) : repairs + again);
  }
  return { phases, replaced, worked };
}
