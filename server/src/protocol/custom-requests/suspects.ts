import type { OfDocument, OwnRequest } from "./request";

/** Lines and characters count from 0; characters are UTF-16 code units. */
export interface PlaceInFile {
  readonly uri: string;
  readonly line: number;
  readonly character: number;
}

/** A sentence and where what it says stands, where it stands anywhere. */
export interface PlacedText {
  readonly text: string;
  readonly place?: PlaceInFile;
}

/** Roughly, as it is said: "about 45 %". */
export interface ShareWords {
  readonly how: "about" | "over" | "under";
  readonly percent: number;
}

/** One suspect with the evidence for it and against it. */
export interface SuspectItem {
  /** "U14", "the track or a joint of ROW_7". */
  readonly name: string;
  readonly title?: string;
  readonly share: ShareWords;
  readonly for: readonly PlacedText[];
  /** Why it was likely before anything was read. */
  readonly before: readonly string[];
  readonly against: readonly string[];
  readonly notTaken: readonly PlacedText[];
  /** In the board file. */
  readonly place?: PlaceInFile;
}

/** A reading that is advised, with its cautions. */
export interface ReadingItem {
  /** What to do. */
  readonly action: string;
  readonly why: string;
  readonly minutes: number;
  readonly cautions: readonly string[];
  /** In the log where it was or is to be written, else in the board file. */
  readonly place?: PlaceInFile;
}

/** The diagnosis of one log as a list to walk through. */
export interface Suspects {
  /** Of the document that this is about. */
  readonly version: number;
  /** Why there is nothing to list, as a sentence; everything else is empty then. */
  readonly nothing?: string;
  readonly suspects: readonly SuspectItem[];
  readonly next?: ReadingItem;
  readonly others: readonly ReadingItem[];
  readonly unproven: readonly { readonly title: string; readonly wants: string; readonly failed: boolean }[];
  readonly toProve: number;
  readonly notes: readonly string[];
}

/** What may be wrong with the board of a log and what to read next. */
export const SUSPECTS: OwnRequest<OfDocument, Suspects> = { method: "mendlog/suspects" };
