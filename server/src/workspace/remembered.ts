import type { PackedSummary } from "../log/summary-pack";
import type { PackedRegions } from "../log/text-regions";

/** What is remembered of one file, to be handed on: to another thread, or kept until the next time. */
export interface Remembered {
  readonly uri: string;
  /** Of the text, see `textHash`; absent for Markdown that is no log. */
  readonly hash?: string;
  /** Absent for what is no log and for a log that is too long. */
  readonly packed?: PackedSummary;
  /** Where in that text things may be named; absent where nobody is going to search. */
  readonly stretches?: PackedRegions;
}
