// Which kind of table stands under a heading whose words leave two open: the columns tell.
import type { Library } from "../knowledge/library";
import type { Procedure } from "../knowledge/types";
import type { Table } from "../syntax/tables";
import { headerWord } from "./header-word";
import { KINDS } from "./kinds";
import type { Section } from "./model";

/** Undefined under a heading that no procedure claims. */
export function procedureOf(
  table: Table,
  { heading, procedure }: Section,
  library: Library,
): Procedure | undefined {
  if (!procedure) return undefined;
  for (const { id, insteadOf } of KINDS) {
    const own = insteadOf?.procedures.includes(procedure.id) ? library.procedure(id) : undefined;
    if (!own || !insteadOf) continue;
    const words = table.header.cells.map(({ text }) => headerWord(text));
    if (insteadOf.claims({ own, other: procedure, words, heading: heading?.text })) return own;
  }
  return procedure;
}
