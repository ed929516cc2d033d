import { defined } from "../../base/defined";
import type { Span } from "../../text/span";
import { literal } from "../shared/snippet-text";
import { writeLayout } from "../shared/tables/write";
import type { LogView } from "../view";
import { deviceOffers, type TableOffer, tableOffers } from "./offers";
import { emptyLineAt, isLastOfSection, sectionEnd, type TablePlace } from "./place";

export { deviceOffers, type OfferKind, type TableOffer, tableOffers } from "./offers";

export interface NewTable {
  readonly span: Span;
  readonly newText: string;
  readonly snippet: string;
  /** As in a completion. */
  readonly filled?: string;
  /** True where readings are typed without their point. */
  readonly byDigits: boolean;
}

/** A table to be put in, or why there is none, as a sentence. */
export type Insertion = ({ readonly ok: true } & NewTable) | { readonly ok: false; readonly reason: string };

/**
 * The table with this id at the offset: on the empty line there, else at the end of the section, under a heading of its
 * own where the section's does not fit. With a heading it never goes before other text of the section, which would
 * then stand under that heading.
 */
export function insertionOf(view: LogView, id: string, offset: number): Insertion {
  const offer = [tableOffers, deviceOffers].flatMap((offers) => offers(view)).find((each) => each.id === id);
  if (!offer) return { ok: false, reason: `There is no table "${id}" any more: ask for the list again.` };
  const line = emptyLineAt(view, offset);
  const here = line && (offer.fits(line.section) || isLastOfSection(view, line)) ? line : undefined;
  const place = here ?? sectionEnd(view, offset);
  if (!place)
    return { ok: false, reason: "A fence or a comment at the end of the log is not closed: close it first." };
  const written = tableAtPlace(offer, place);
  return written ? { ok: true, ...written } : { ok: false, reason: "There is no table for it." };
}

/** Undefined where there is nothing to be laid out. */
export function tableAtPlace(offer: TableOffer, place: TablePlace): NewTable | undefined {
  const { section, eol, before, after, span } = place;
  const fits = offer.fits(section);
  const layout = offer.layout(fits ? section.procedure : undefined);
  if (!layout) return undefined;
  const depth = Math.max(2, section.heading?.depth ?? 2);
  const heading = fits ? "" : `${"#".repeat(depth)} ${offer.heading}${eol}${eol}`;
  const { plain, snippet, filled } = writeLayout(layout, offer.down);
  const asSnippet = (lines: readonly string[]) => before + literal(heading) + lines.join(eol) + after;
  return defined({
    span,
    newText: before + heading + plain.join(eol) + after,
    snippet: asSnippet(snippet),
    filled: filled && asSnippet(filled),
    byDigits: layout.digits !== undefined,
  });
}
