// What a heading takes from those it stands under: "### U2 (74LS273)" below "## Diode check" is a diode check of U2, and
// "### Diode check" below "## U2 (74LS273)" is one too.
import { memo } from "../base/memo";
import type { Section } from "./model";

/** The headings that a place stands under, the nearest first. Never changes. */
export interface OuterHeading {
  readonly depth: number;
  readonly own: Section;
  readonly outer: OuterHeading | undefined;
  /** The same for headings that say the same. */
  readonly key: string;
}

/** The headings that the next one stands under, behind this one; made once for a section and what it stands under. */
export function below(section: Section, outer: OuterHeading | undefined): OuterHeading | undefined {
  const depth = section.heading?.depth;
  if (depth === undefined) return outer;
  return headingOf(section, above(depth, outer), depth);
}

const headingOf = memo((section: Section, outer: OuterHeading | undefined, depth: number): OuterHeading => {
  const { procedure, qualifiers, ref, part } = section;
  const words = wordsOf(section);
  const key = JSON.stringify([depth, procedure?.id, qualifiers, ref?.text, part?.text, words, outer?.key]);
  return { depth, own: section, outer, key };
});

/** The nearest of them that a heading of this depth stands under. */
export function above(depth: number, outer: OuterHeading | undefined): OuterHeading | undefined {
  let at = outer;
  while (at && at.depth >= depth) at = at.outer;
  return at;
}

/** A heading that stands over tables by its words; a title tells what the job is about. */
const wordsOf = ({ heading }: Section): readonly string[] =>
  heading && heading.depth > 1 ? [heading.text] : [];

/** The section with what the headings above it say and its own leaves open. */
export function inherit(section: Section, outer: OuterHeading | undefined): Section {
  const depth = section.heading?.depth;
  if (depth === undefined) return section;
  const parents = all(above(depth, outer));
  const outerWords = parents.flatMap(({ own }) => wordsOf(own));
  return inheritFrom(outerWords.length === 0 ? section : { ...section, outerWords }, parents);
}

function inheritFrom(section: Section, parents: readonly OuterHeading[]): Section {
  if (!section.procedure && section.ref) {
    const measured = parents.find(({ own }) => own.procedure)?.own;
    if (!measured?.procedure) return section;
    return {
      ...section,
      procedure: measured.procedure,
      qualifiers: measured.qualifiers,
      isProcedureOfOuter: true,
    };
  }
  if (section.ref || section.refs) return section;
  // A title names what the job is about, and no part by itself.
  const part = parents.find(
    ({ own }) =>
      own.ref && (!own.procedure || own.isProcedureOfOuter) && own.heading && own.heading.depth > 1,
  )?.own;
  if (!part?.ref) return section;
  const own = { ref: part.ref, ...(part.part ? { part: part.part } : {}) };
  return section.procedure && isOfParts(section) ? { ...section, ...own } : { ...section, outerPart: own };
}

function all(from: OuterHeading | undefined): OuterHeading[] {
  return from ? [from, ...all(from.outer)] : [];
}

const isOfParts = ({ procedure }: Section): boolean =>
  procedure?.columns.some(({ role, required }) => role === "ref" && required) ?? false;
