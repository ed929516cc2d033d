// Which of the board's modifications the log says were fitted.
import type { Board, Modification } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import type { CellText } from "../../log/model";
import { type WorkRow, workRows } from "./work";

export interface FittedModification {
  readonly row: WorkRow;
  /** The cell that names it. */
  readonly cell: CellText;
  /** Absent where the board file has none of that name. */
  readonly modification?: Modification;
}

/** Rows of work that fit a modification, in the order of the log; each names it by id or title. */
export function modificationsIn(doc: LogDocument, board: Board | undefined): FittedModification[] {
  return workRows(doc).flatMap((row): FittedModification[] => {
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
