// Link and footnote definitions are the one thing in Markdown that reaches across headings: `[x]` is a link if
// `x` is defined anywhere in the document. Most logs define nothing, and pay nothing.

import { memoBy } from "../base/memo";
import type { Names } from "./markdown";
import type { BlockReading } from "./parse-block";

/** All names a document defines. */
export interface DocumentNames {
  readonly links: ReadonlySet<string>;
  readonly footnotes: ReadonlySet<string>;
  /** Equal for equal sets of names. */
  readonly key: string;
}

/** Undefined where nothing is defined at all. */
export function gatherNames(each: readonly Names[]): DocumentNames | undefined {
  const links = new Set<string>();
  const footnotes = new Set<string>();
  for (const names of each) {
    for (const name of names.links) links.add(name);
    for (const name of names.footnotes) footnotes.add(name);
  }
  if (links.size + footnotes.size === 0) return undefined;
  return { links, footnotes, key: JSON.stringify([[...links].sort(), [...footnotes].sort()]) };
}

/** By the names of the document: most edits define none. */
const known = memoBy<BlockReading, Names | undefined>();

/**
 * The names defined in other blocks that may bear on this one, sorted; undefined where none can. A name that the
 * text does not mention word by word cannot.
 */
export function elsewhereFor(names: DocumentNames, reading: BlockReading): Names | undefined {
  const text = reading.block?.text;
  if (text === undefined || reading.block?.tooLarge || !text.includes("[")) return undefined;
  return known(reading, () => mentionedIn(text, names, reading.names), names.key);
}

function mentionedIn(text: string, names: DocumentNames, defined: Names): Names | undefined {
  const folded = fold(text);
  const mentioned = (all: ReadonlySet<string>, own: readonly string[]): string[] => {
    const here = new Set(own);
    return [...all].filter((name) => !here.has(name) && mentions(folded, name)).sort();
  };
  const links = mentioned(names.links, defined.links);
  const footnotes = mentioned(names.footnotes, defined.footnotes);
  return links.length + footnotes.length === 0 ? undefined : { links, footnotes };
}

// A name may be broken over lines, with the marks of a quote in between, so only its words are looked for.
const mentions = (folded: string, name: string): boolean =>
  name.split(" ").every((word) => folded.includes(word));

/** As the parser folds case and reads NUL. */
const fold = (text: string): string => text.replaceAll("\0", "\uFFFD").toLowerCase().toUpperCase();
