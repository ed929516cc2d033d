// Safety and slam inputs that the work puts out of action: by the board file where it says so, else by the words used.

import type { LogContext } from "../../judge/context";
import { boardIndex } from "../../knowledge/board-index";
import type { Modification } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import { type WorkRow, workRows } from "../../log/timeline";
import { modificationsIn } from "./modifications";
import { safetyWord, saysDefeated } from "./safety";

export interface Defeated {
  readonly row: WorkRow;
  /** As the board file names them, or the one word that gave it away; at least one. */
  readonly names: readonly string[];
  /** The modification whose `defeats` names them. */
  readonly by?: Modification;
}

/** What safety inputs the work has put out of action: one entry a row of work, in the order of the log. */
export function defeatedInputs(doc: LogDocument, ctx: LogContext): Defeated[] {
  const fitted = new Map(
    modificationsIn(doc, ctx.board?.value).map(({ row, modification }) => [placeOf(row), modification]),
  );
  return workRows(doc).flatMap((row): Defeated[] => {
    if (row.kind !== "work") return [];
    const modification = row.action === "fit-modification" ? fitted.get(placeOf(row)) : undefined;
    if (modification && modification.defeats.length > 0)
      return [{ row, names: modification.defeats, by: modification }];
    const word = byWords(row, modification, ctx);
    return word === undefined ? [] : [{ row, names: [word] }];
  });
}

/** No two rows of work begin at one place. */
const placeOf = ({ start, part, actionText, ref }: WorkRow): number =>
  start + ((part ?? actionText ?? ref)?.span.start ?? 0);

/** By the words of the row, of the place it is about, and of the modification it fits. */
function byWords(row: WorkRow, modification: Modification | undefined, ctx: LogContext): string | undefined {
  const { action, part, note, actionText } = row;
  const own = [actionText, part, note].map((cell) => cell?.text ?? "").join(" ");
  if (action === "jumper" || action === "cut") {
    const places = row.refs.flatMap((ref) => {
      const found = ctx.board && boardIndex(ctx.board.value).part(ref);
      return found ? [found.note ?? "", found.value ?? ""] : [];
    });
    return safetyWord(own) ?? safetyWord(places.join(" "));
  }
  if (action !== "fit-modification") return undefined;
  const line = [own, ...(modification?.steps ?? [])].find(
    (text) => safetyWord(text) !== undefined && saysDefeated(text),
  );
  return line === undefined ? undefined : safetyWord(line);
}
