// A memory test's failing rows, as the diagnosis takes them: the chips behind the failing bits.

import { defined } from "../../base/defined";
import { memoryChips } from "../../compute/memory/chips";
import type { LogContext } from "../../judge/context";
import { partPlace } from "../../judge/place";
import type { LogTable } from "../../log/model";
import { failingRow, memoryRows } from "../memory/from-log";
import type { Observation } from "./observation";

/** One observation of each chip a table names or its bits lead to. A test is passed by no chip for good: it says nothing. */
export function memoryObservations(table: LogTable, ctx: LogContext): Observation[] {
  const board = ctx.board?.value;
  if (!board) return [];
  const chips = memoryChips(board, ctx.library);
  const found = new Map<string, Observation>();
  for (const row of memoryRows(table)) {
    const failing = failingRow(row, chips);
    const named = row.ref === undefined ? [] : [row.ref];
    const refs = failing && failing.chips.length > 0 ? failing.chips.map(({ ref }) => ref) : named;
    const wrong = failing !== undefined || row.ok === false;
    const [at] = row.at.values();
    if (!at) continue;
    for (const typed of refs) {
      const ref = partPlace(typed, board, ctx.library).part?.ref;
      if (ref === undefined || found.get(ref)?.finding) continue;
      const lines = failing?.lines.map((line) => `D${line}`).join(", ");
      const says = lines ? `${ref} fails its memory test at ${lines}.` : `${ref} fails its memory test.`;
      found.set(
        ref,
        defined({
          key: `${table.procedure.id} ${ref}`.toUpperCase(),
          what: `${ref}'s memory test`,
          table,
          span: at.cell.span,
          refs: [ref.toUpperCase()],
          // It may be what is around the chip: its selects, its data lines.
          finding: wrong
            ? { kind: "part", ref, verdict: "suspect", of: `${ref}'s memory test`, says }
            : undefined,
        }),
      );
    }
  }
  return [...found.values()];
}
