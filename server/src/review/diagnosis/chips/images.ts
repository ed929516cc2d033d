// A ROM check as the diagnosis takes it: an image that is none of those the board file lists, or one that is.

import { matchChecks } from "../../../compute/memory/rom-match";
import type { LogContext } from "../../../judge/context";
import type { LogDocument } from "../../../log/document";
import type { LogTable } from "../../../log/model";
import { imagesAt, romRows, sumAgrees } from "../../memory/rom-from-log";
import type { LocatedObservation, Observation } from "../observation";

export function imageObservations(table: LogTable, ctx: LogContext): Observation[] {
  const board = ctx.board?.value;
  if (!board) return [];
  return romRows(table, board, ctx.images).flatMap(({ ref, known, sum8, shown, at }): Observation[] => {
    const images = imagesAt(board, ref);
    const [reading] = at.values();
    const part = board.parts.get(ref);
    if (!part || images.length === 0 || !reading) return [];
    const sums = images.flatMap(({ sum16 }) => sum16 ?? []);
    const typed = sum8 ?? shown;
    const hasChecks = known.sum16 !== undefined || known.crc32 !== undefined || known.sha1 !== undefined;
    if (!hasChecks && (typed === undefined || sums.length === 0)) return [];
    const isRight = hasChecks
      ? matchChecks(known, board.romSets.values(), ref).some(
          ({ kind, image }) => image.ref === ref && kind !== "same-sum",
        )
      : sums.some((sum) => sumAgrees(typed ?? "", sum));
    return [
      {
        key: `${table.procedure.id} ${ref}`.toUpperCase(),
        what: `${ref}'s image`,
        table,
        span: reading.cell.span,
        refs: [ref.toUpperCase()],
        ...(isRight
          ? { against: [{ ref, by: "rom-right" as const }] }
          : {
              finding: {
                kind: "sign" as const,
                sign: "rom-sum" as const,
                refs: [ref],
                of: `${ref}'s image`,
                says: `${ref}'s image is none that the board file lists for it.`,
              },
            }),
      },
    ];
  });
}

/** What is done to the legs of a chip between two readings of it. Words that are common practice, no source. */
const CLEANED =
  /\b(?:clean(?:ed|ing)?|polish(?:ed)?|scrap(?:ed|ing)|brush(?:ed)?|rubbed|gone over|glass pen|contact spray|re-?seated|straightened)\b/i;

/** Without a wrong image of a chip that read right once its legs were cleaned. */
export function withoutDirtyLegs(
  all: readonly LocatedObservation[],
  { text }: Pick<LogDocument, "text">,
): readonly LocatedObservation[] {
  const right = all.flatMap(({ against = [], span }) =>
    against.flatMap(({ ref, by }) => (by === "rom-right" ? [{ ref, at: span.start }] : [])),
  );
  if (right.length === 0) return all;
  return all.filter(({ finding, span }) => {
    if (finding?.kind !== "sign" || finding.sign !== "rom-sum") return true;
    return !right.some(
      ({ ref, at }) => finding.refs?.includes(ref) && at > span.end && CLEANED.test(text.slice(span.end, at)),
    );
  });
}
