import type { OfDocument, OwnRequest } from "./request";

/** One table that can be laid out: for what the log's board has, or for any chip of the library. */
export interface WireTableOffer {
  readonly id: string;
  readonly kind: "rails" | "matrix" | "circuit" | "chip" | "device";
  readonly label: string;
  readonly description: string;
}

/** Tables to choose from; those of the library's chips are there without any board. */
export interface WireTableOffers {
  readonly offers: readonly WireTableOffer[];
}

/** Where the table is wanted: in a log about several boards it is of the board whose section stands there. */
export interface OffersAsked extends OfDocument {
  readonly position?: { readonly line: number; readonly character: number };
}

/** Which tables can be put in where the cursor is. */
export const TABLE_OFFERS: OwnRequest<OffersAsked, WireTableOffers> = { method: "mendlog/tableOffers" };

/** Which offer was taken, and where its table is to stand. */
export interface PlaceOfTable extends OfDocument {
  /** Of an offer. */
  readonly id: string;
  readonly position: { readonly line: number; readonly character: number };
}

/** What to put where; or only a `reason`. */
export interface WireInsertion {
  readonly version: number;
  readonly range: { readonly start: PlaceOfTable["position"]; readonly end: PlaceOfTable["position"] };
  /** With tab stops. */
  readonly snippet: string;
  /** True where its readings are typed without their point. */
  readonly byDigits: boolean;
}

/** The table that was picked, as a snippet for the place it goes to, or the reason why it cannot be put there. */
export const INSERT_TABLE: OwnRequest<PlaceOfTable, WireInsertion | { readonly reason: string }> = {
  method: "mendlog/insertTable",
};
