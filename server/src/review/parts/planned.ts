// Parts that the log itself still asks for: rows of work that are only planned, and modifications that were fitted or
// are planned and lack parts.
import { defined } from "../../base/defined";
import type { Board, Modification } from "../../knowledge/types";
import { plannedRows, workRows } from "../../log/timeline";
import { modificationsIn, modificationsPlanned, neededParts } from "./modifications";
import type { PartsSource } from "./suggest";

export interface PlannedPart {
  /** Absent where the row names a place of the board only: then what belongs there is meant. */
  readonly part?: string;
  /** In upper case; empty where the log names no place. */
  readonly refs: readonly string[];
  readonly quantity: number;
  readonly why: string;
}

/** In the order of the log, the rows before the modifications. */
export function plannedParts({ doc, ctx }: PartsSource): PlannedPart[] {
  const board = ctx.board?.value;
  const done = new Set(
    workRows(doc)
      .filter(({ kind, action }) => kind === "fitted" || action === "replace" || action === "fit")
      .flatMap(({ refs }) => refs),
  );
  const rows = plannedRows(doc).flatMap(({ action, refs, part, quantity }): PlannedPart[] => {
    if (action !== "replace" && action !== "fit" && action !== "socket") return [];
    // A plan that was carried out since is a plan no more.
    const open = refs.filter((ref) => !done.has(ref));
    if (refs.length > 0 && open.length === 0) return [];
    if (action === "socket" && !part) return [];
    return [
      defined({
        part: part?.text,
        refs: open,
        quantity: Math.max(open.length, refs.length === open.length ? (quantity ?? 1) : 1),
        why: "planned",
      }),
    ];
  });
  return [...rows, ...ofModifications({ doc, ctx }, board)];
}

function ofModifications({ doc }: Pick<PartsSource, "doc" | "ctx">, board: Board | undefined): PlannedPart[] {
  if (!board) return [];
  const of = (found: ReturnType<typeof modificationsIn>): Modification[] =>
    found.flatMap(({ modification }) => modification ?? []);
  const fitted = of(modificationsIn(doc, board));
  const planned = of(modificationsPlanned(doc, board)).filter((one) => !fitted.includes(one));
  const why = new Map<Modification, string>();
  for (const one of fitted) why.set(one, `"${one.title}" was fitted, but not all its parts are listed`);
  for (const one of planned) if (!why.has(one)) why.set(one, `"${one.title}" is planned`);
  // What one of them requires comes with it; a circle of requirements ends where it began.
  for (const one of why.keys())
    for (const id of one.requires) {
      const other = board.modifications.get(id);
      if (other && !why.has(other)) why.set(other, `"${other.title}" is required by "${one.title}"`);
    }
  return neededParts(doc, [...why.keys()]).map(({ modification, part, quantity, has }) => ({
    part,
    refs: [],
    quantity: quantity - has,
    why: `${why.get(modification)}${has > 0 ? `, ${has} of ${quantity} are fitted` : ""}`,
  }));
}
