// What a board's proving list comes to, held against a log. All spans are of the document.
import type { ProvingItem } from "../../knowledge/types";
import type { Reading } from "../../log/model";
import type { Span } from "../../text/span";

/**
 * - `proven`: a row of the proving table says so, or the tables of the item's procedure show all of it, since the last
 *   repair and with nothing against it;
 * - `failed`: something written since the last repair says that it does not work;
 * - `unproven`: anything else. Never a statement about a part.
 */
export type ProvingState = "proven" | "failed" | "unproven";

/** How much of an item the tables of its procedure show. */
export interface Coverage {
  readonly done: number;
  /** Absent where the board file does not say how many there are. */
  readonly total?: number;
  /** "rails", "rows and columns", "settings". */
  readonly what: string;
  /** What is not shown yet, as names. */
  readonly missing: readonly string[];
}

/** One thing the log says about an item. */
export interface ProofClaim {
  readonly span: Span;
  /** As a clause: "the proving table says ok (2026-02-04)". */
  readonly text: string;
}

/** One item of the board's proving list, and how it stands by the log. */
export interface ItemReview {
  readonly item: ProvingItem;
  readonly state: ProvingState;
  /** What bears the state out; what speaks against it, where it failed. */
  readonly said: readonly ProofClaim[];
  readonly coverage?: Coverage;
  /** Why it could not be proven, in the words of the log: the note of its row. */
  readonly reason?: string;
  /** What would prove it, as a sentence; empty where it is proven. */
  readonly wants: string;
}

export interface ProvingReview {
  readonly items: readonly ItemReview[];
  /** Rows of the proving tables that are none of the board's items, as written. */
  readonly beside: readonly {
    readonly item: string;
    readonly result: string;
    readonly note?: string;
    readonly span: Span;
  }[];
}

/** What the tables of one procedure show since the last repair. */
export interface ShownByTables {
  /** True where they show everything that the item is about, with nothing against it. */
  readonly complete: boolean;
  readonly for: readonly ProofClaim[];
  readonly against: readonly ProofClaim[];
  readonly coverage?: Coverage;
  /** What is left to do, as a sentence. */
  readonly wants: string;
}

/** A reading taken since the last repair, and whether it speaks for what it is of. */
export interface Judged {
  readonly reading: Reading;
  /** Within limits, or a word that it works; undefined where it says neither. */
  readonly ok: boolean | undefined;
}
