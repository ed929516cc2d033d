// Which of the board's modifications the log says were fitted.
import { normalPart } from "../../knowledge/part-number";
import type { Board, Modification } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import type { CellText } from "../../log/model";
import { plannedRows, type WorkRow, workRows } from "../../log/timeline";

export interface FittedModification {
  readonly row: WorkRow;
  /** The cell that names it. */
  readonly cell: CellText;
  /** Absent where the board file has none of that name. */
  readonly modification?: Modification;
}

/** Rows of work that fit a modification, in the order of the log; each names it by id or title. */
export const modificationsIn = (doc: LogDocument, board: Board | undefined): FittedModification[] =>
  namedIn(workRows(doc), board);

/** The same of rows that only plan to. */
export const modificationsPlanned = (doc: LogDocument, board: Board | undefined): FittedModification[] =>
  namedIn(plannedRows(doc), board);

function namedIn(rows: readonly WorkRow[], board: Board | undefined): FittedModification[] {
  return rows.flatMap((row): FittedModification[] => {
    if (row.kind !== "work" || row.action !== "fit-modification") return [];
    const cells = [row.part, row.actionText, row.note].filter((cell) => cell !== undefined);
    for (const cell of cells) {
      const modification = board && named(cell.text, board);
      if (modification) return [{ row, cell, modification }];
    }
    const cell = row.part ?? row.actionText;
    return cell ? [{ row, cell }] : [];
  });
}

function named(text: string, board: Board): Modification | undefined {
  const words = text.trim().toLowerCase();
  const all = [...board.modifications.values()];
  return (
    all.find(({ id, title }) => words === id.toLowerCase() || words === title.toLowerCase()) ??
    all.find(({ id }) =>
      new RegExp(`(?<![\\w-])${id.toLowerCase().replaceAll(/[.]/g, "\\.")}(?![\\w-])`).test(words),
    )
  );
}

/** Parts that modifications take and that nothing written as fitted covers. */
export interface NeededPart extends CountedPart {
  readonly modification: Modification;
  /** How many are written as fitted. */
  readonly has: number;
}

/**
 * What each of these modifications still needs, each once. Pieces written as fitted count for the first that wants
 * them.
 */
export function neededParts(doc: LogDocument, modifications: readonly Modification[]): NeededPart[] {
  const fitted = workRows(doc).filter((row) => row.kind === "fitted" || row.action === "fit");
  const countOf = (part: string): number =>
    fitted
      .filter((row) => row.part && normalPart(row.part.text) === normalPart(part))
      .reduce((all, row) => all + (row.quantity ?? Math.max(1, row.refs.length)), 0);
  const left = new Map<string, number>();
  return [...new Set(modifications)].flatMap((modification) => {
    // The quantities of one part may stand in several lines of the modification.
    const wanted = new Map<string, number>();
    for (const { part, quantity } of modification.parts.map(countedPart))
      wanted.set(part, (wanted.get(part) ?? 0) + quantity);
    return [...wanted].flatMap(([part, quantity]) => {
      const key = normalPart(part);
      const has = left.get(key) ?? countOf(part);
      left.set(key, Math.max(0, has - quantity));
      return has < quantity ? [{ modification, part, quantity, has }] : [];
    });
  });
}

export interface CountedPart {
  readonly quantity: number;
  readonly part: string;
}

/** "32 x 1N4148" is 32 of them; anything else is one. */
export function countedPart(text: string): CountedPart {
  const match = /^\s*(\d{1,4})\s*[x×]\s+?(\S.*)$/.exec(text) ?? /^\s*(\d{1,4})\s*[x×]\s*(\S.*)$/.exec(text);
  return match
    ? { quantity: Number(match[1]), part: (match[2] ?? "").trim() }
    : { quantity: 1, part: text.trim() };
}
