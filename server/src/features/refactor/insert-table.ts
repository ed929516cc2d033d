import type { Span } from "../../text/span";
import { type TableOffer, tableAtPlace, tableOffers } from "../insert-table";
import { emptyLineAt, isLastOfSection } from "../insert-table/place";
import type { Refactor } from "../types";
import type { LogView } from "../view";

/** More tables than these are chosen from the palette, or by typing a chip's number. */
const MOST = 6;

/**
 * On an empty line: the tables of the board that belong under the heading. Where the heading says nothing of readings,
 * those that the log has none of yet, each with a heading of its own.
 */
export function insertTables(view: LogView, selected: Span): readonly Refactor[] {
  if (selected.start !== selected.end) return [];
  const place = emptyLineAt(view, selected.start);
  if (!place) return [];
  const { procedure } = place.section;
  if (!procedure && !isLastOfSection(view, place)) return [];
  return tableOffers(view)
    .filter((offer) =>
      procedure
        ? offer.fits(place.section) && isMeant(view, offer, place.section.ref?.text)
        : isWanted(view, offer),
    )
    .slice(0, MOST)
    .flatMap((offer): Refactor[] => {
      const written = tableAtPlace(offer, place);
      if (!written) return [];
      const under = procedure ? "" : `, under "${offer.heading}"`;
      return [{ title: `Insert ${nameOf(offer)}${under}`, kind: "insert", edits: [written] }];
    });
}

function nameOf({ kind, label }: TableOffer): string {
  if (kind === "chip") return `a row for each pin of ${label}`;
  if (kind === "circuit") return `a column for each chip of "${label}"`;
  return kind === "rails" ? "a row for each rail" : `the grid of "${label}"`;
}

/** Of chips and circuits: those the heading names, else the circuits of the symptoms. */
function isMeant(view: LogView, offer: TableOffer, ref: string | undefined): boolean {
  if (offer.kind === "chip") return ref === offer.label;
  return offer.kind !== "circuit" || (ref === undefined && ofSymptoms(view, offer));
}

function isWanted(view: LogView, offer: TableOffer): boolean {
  if (offer.kind === "chip") return false;
  if (offer.kind === "circuit" && !ofSymptoms(view, offer)) return false;
  return !view.doc.blocks.some(({ block }) => block.tables.some(({ section }) => offer.fits(section)));
}

function ofSymptoms({ ctx, front }: LogView, { id }: TableOffer): boolean {
  const symptoms = ctx.board?.value.symptoms;
  return (front.symptoms ?? []).some((symptom) =>
    symptoms?.get(symptom)?.circuits.some((circuit) => id === `circuit:${circuit}`),
  );
}
