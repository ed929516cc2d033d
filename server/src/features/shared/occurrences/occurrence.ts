import type { Reading } from "../../../log/model";
import type { Span } from "../../../text/span";

/** One place of the text where something is named or was read; spans count as those of its list. */
export interface Occurrence {
  readonly kind: "part" | "pin" | "net" | "reading" | "other";
  /** On one line. */
  readonly span: Span;
  /** What it names; two of one thing share a key. */
  readonly keys: readonly string[];
  /** What it also tells something of: the net of a pin that was read. */
  readonly tells: readonly string[];
  /** Something was done there, a reading taken or work on the part; else it is only spoken of. */
  readonly done: boolean;
  /** In a comment, or in what the log writes of itself: no words of the person's own. */
  readonly aside: boolean;
  readonly reading?: Reading;
}
