import type { Span } from "../../text/span";
import type { Target } from "../types";

export interface Lens {
  /** What it stands above: the symptoms, a heading, or a table's header. Of the document. */
  readonly span: Span;
  /**
   * Suspects of the log or of a section, the verdicts of a table's readings, what to do where there is no table yet,
   * earlier jobs with the same symptom.
   */
  readonly of: "log" | "section" | "readings" | "empty" | "earlier";
}

/** What a lens says, and what a click does; at most one of the others is there. */
export interface LensTitle {
  readonly title: string;
  /** Writes the suspects down. */
  readonly writes?: boolean;
  /** Shows these places, the first of them first. */
  readonly shows?: readonly Target[];
  /** Shows where these logs, by uri, name their symptoms. */
  readonly logs?: readonly string[];
}
