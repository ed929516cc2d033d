import type { TextRegionKind } from "../../../log/text-regions";
import type { Span } from "../../../text/span";

/**
 * What can be named: an entry of a board file (under the key of the file it stands in), the board itself, a meter of the
 * shop, a part number, a procedure, a job.
 */
export type ThingKind =
  | "parts"
  | "nets"
  | "rails"
  | "circuits"
  | "matrices"
  | "symptoms"
  | "revisions"
  | "rom-sets"
  | "modifications"
  | "board"
  | "meter"
  | "device"
  | "procedure"
  | "job";

/** Something with a name, wherever it is named. */
export interface Entity {
  readonly kind: ThingKind;
  /** As it is written where it is declared, else as typed. */
  readonly name: string;
}

/** Where in a knowledge file: a key or value that the format knows, or the file's free words. */
export type MentionPlace = TextRegionKind | "key" | "value" | "note" | "remark";

/** A thing named in a text; `span` is exactly its name: the `U14` of `U14.3`. */
export interface EntityReference {
  readonly thing: Entity;
  readonly span: Span;
  readonly place: MentionPlace;
  /** The entry of the board file, id or job number that says that there is such a thing. */
  readonly declares?: true;
  /** The pin behind the name: the `3` of `U14.3`. */
  readonly pin?: { readonly text: string; readonly span: Span };
}

/** True for two names of one thing; of designators and part numbers case does not count. */
export const sameThing = (a: Entity, b: Entity): boolean =>
  a.kind === b.kind && entityKey(a) === entityKey(b);

/** Designators are the same in any case of letters; every other name is what it is. */
export const entityKey = ({ kind, name }: Entity): string =>
  kind === "parts" || kind === "device" ? name.toUpperCase() : name;

/** Said in free words, where a word may only look like the name: to be looked at before it is changed. */
export const isLoose = ({ place }: EntityReference): boolean =>
  place === "prose" || place === "cell" || place === "comment" || place === "note" || place === "remark";

/** What is of one board: each is a section of its file by the same name. */
export const OF_BOARD: ReadonlySet<ThingKind> = new Set<ThingKind>([
  "parts",
  "nets",
  "rails",
  "circuits",
  "matrices",
  "symptoms",
  "revisions",
  "rom-sets",
  "modifications",
]);
