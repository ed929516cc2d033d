// Parts that were swapped for others, as the diagnosis takes it: it works with another one, or nothing changed.

import type { Against, SignFinding } from "../../../compute/diagnosis/types";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board } from "../../../knowledge/types";
import type { Timeline, WorkRow } from "../../../log/timeline";
import { swapOutcome } from "../../../log/timeline/swaps";
import { shift } from "../../../text/span";
import type { LocatedObservation } from "../observation";

const SWAP = /\b(?:swap|tried|try|exchang|substitut|known[- ]good|replac|renew|piggy)/i;

/** Only what was put back, or tried: what was replaced for good makes history of what was read before. */
export function swapObservations({ rows }: Timeline, board: Board): LocatedObservation[] {
  return rows.flatMap((row): LocatedObservation[] => {
    // A table of swaps is read by its results.
    if (row.kind !== "work" || row.state === "planned" || row.table.kind.holds === "swaps") return [];
    const action = row.actionText?.text ?? "";
    const note = row.note?.text ?? "";
    if (!SWAP.test(`${action} ${note}`)) return [];
    const told = swapOutcome(`${action}, ${note}`);
    if (told === undefined || told === "worse" || (told !== "same" && row.state !== "put-back")) return [];
    return row.refs.flatMap((typed) => {
      const part = boardIndex(board).part(typed);
      return part ? [told === "same" ? same(row, part.ref) : better(row, part.ref)] : [];
    });
  });
}

const placed = ({ row, start, repair }: WorkRow, ref: string): Omit<LocatedObservation, "finding"> => ({
  key: `swap ${ref}`.toUpperCase(),
  what: `another ${ref} in its place`,
  span: shift(row.span, start),
  refs: [],
  phase: repair,
});

const same = (row: WorkRow, ref: string): LocatedObservation => ({
  ...placed(row, ref),
  against: [{ ref, by: "swap-same" } satisfies Against],
});

const better = (row: WorkRow, ref: string): LocatedObservation => ({
  ...placed(row, ref),
  finding: {
    kind: "sign",
    sign: "swap-better",
    refs: [ref],
    of: `the swap of ${ref}`,
    says: `With another part in the place of ${ref} it worked.`,
  } satisfies SignFinding,
});
