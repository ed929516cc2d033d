// What is named where in a log: one list shared by references, rename, highlights and colours.
import { defined } from "../../../base/defined";
import { memo } from "../../../base/memo";
import type { Board } from "../../../knowledge/types";
import type { LogDocument } from "../../../log/document";
import type { LocatedBlock, LogBlock } from "../../../log/model";
import { frontMatterRegions, type TextRegion, textRegionsOfBlock } from "../../../log/text-regions";
import { type Span, shift, slice, span } from "../../../text/span";
import { findNames, type NameIndex, nameIndex, namesOfBoard, standsOut } from "./names";
import { type Entity, type EntityReference, entityKey, type ThingKind } from "./types";

/**
 * Everything named in the log, in order; spans of the document. Without a board file only what the log's own tables name
 * as designators is known.
 */
export function mentionsInLog(doc: LogDocument, board: Board | undefined): readonly EntityReference[] {
  const { front, blocks } = mentionsByBlock(doc, board);
  return [
    ...front,
    ...blocks.flatMap(({ start, mentions }) => mentions.map((mention) => moved(mention, start))),
  ];
}

/** The same block by block, for those who keep what they make of a block's: its list stays the same object. */
export interface MentionsByBlock {
  readonly front: readonly EntityReference[];
  /** Spans of the block. */
  readonly blocks: readonly (LocatedBlock & { readonly mentions: readonly EntityReference[] })[];
}

/**
 * Every name in a log that the board or the log itself knows. Spans of a block's mentions count from the block's start.
 */
export function mentionsByBlock(doc: LogDocument, board: Board | undefined): MentionsByBlock {
  const own = ownNames(doc, board);
  const names = board && namesOfBoard(board);
  return {
    front: frontMatterRegions(doc).flatMap((stretch) => frontMentions(doc.text, stretch, [names, own])),
    blocks: doc.blocks.map(({ start, block }) => ({
      start,
      block,
      mentions: blockMentions(block, names, own),
    })),
  };
}

const moved = (mention: EntityReference, by: number): EntityReference => ({
  ...mention,
  span: shift(mention.span, by),
  ...(mention.pin ? { pin: { ...mention.pin, span: shift(mention.pin.span, by) } } : {}),
});

const blockMentions = memo(
  (block: LogBlock, board: NameIndex | undefined, own: NameIndex | undefined): readonly EntityReference[] =>
    textRegionsOfBlock(block).flatMap((stretch) =>
      mentionsInStretch(block.source.text, stretch, [board, own]),
    ),
);

/** Names from one stretch of a log that may be of a text of its own, such as a closed log's. */
export function mentionsInStretch(
  text: string,
  stretch: TextRegion,
  names: readonly (NameIndex | undefined)[],
): EntityReference[] {
  if (stretch.place.startsWith("front-")) return frontMentions(text, stretch, names);
  const { place } = stretch;
  const found = names
    .flatMap((some) => (some ? findNames(text, stretch.span, some, (thing) => mayBeMeant(thing, place)) : []))
    .map((found): EntityReference => ({ ...found, place }))
    .sort((a, b) => a.span.start - b.span.start);
  return found.length > 0 || place !== "rail" ? found : railMention(text, stretch, names);
}

/** "+5", "5 volts" and "5V (TP1)" are the rail too. */
function railMention(
  text: string,
  { span: at, place }: TextRegion,
  names: readonly (NameIndex | undefined)[],
): EntityReference[] {
  const name = names.map((some) => some?.rail?.(slice(text, at).trim())).find((rail) => rail !== undefined);
  if (name === undefined) return [];
  const typed = slice(text, at);
  const start = at.start + typed.length - typed.trimStart().length;
  return [{ thing: { kind: "rails", name }, span: span(start, start + typed.trim().length), place }];
}

/** A column of one kind of thing names nothing but that. */
function mayBeMeant({ kind, name }: Entity, place: TextRegion["place"]): boolean {
  switch (place) {
    case "ref":
    case "header":
      return kind === "parts";
    case "signal":
      return kind === "nets" || kind === "parts" || kind === "rails";
    case "rail":
      return kind === "rails" || kind === "nets";
    case "part":
      return kind === "device" || kind === "parts";
    default:
      return standsOut({ kind, name });
  }
}

const FRONT: Readonly<Record<string, ThingKind>> = {
  "front-job": "job",
  "front-board": "board",
  "front-revision": "revisions",
  "front-symptom": "symptoms",
  "front-meter": "meter",
  "front-rom-set": "rom-sets",
  "front-comeback-of": "job",
};

/** A value of the front matter names one thing; a symptom in words may name parts. */
function frontMentions(
  text: string,
  { span: at, place }: TextRegion,
  names: readonly (NameIndex | undefined)[],
): EntityReference[] {
  const bare = withoutQuotes(text, at);
  const name = slice(text, bare);
  const kind = FRONT[place];
  if (name === "" || !kind) return [];
  if (place === "front-symptom" && /\s/.test(name)) {
    return mentionsInStretch(text, { span: at, place: "prose" }, names);
  }
  return [
    defined({ thing: { kind, name }, span: bare, place, declares: place === "front-job" ? true : undefined }),
  ];
}

export function withoutQuotes(text: string, at: Span): Span {
  const quote = text[at.start];
  const quoted = (quote === '"' || quote === "'") && at.end - at.start > 1 && text[at.end - 1] === quote;
  return quoted ? span(at.start + 1, at.end - 1) : at;
}

const DESIGNATOR = /^[A-Za-z]{1,4}\d{1,4}[A-Za-z]?(?![\w.])/;

/** Designators in the columns for them: those the board file does not have count too. */
export function designatorsIn(text: string, stretches: readonly TextRegion[]): string[] {
  return stretches.flatMap(({ place, span: at }) => {
    if (place !== "ref" && place !== "header") return [];
    const found = DESIGNATOR.exec(slice(text, at).trim());
    return found ? [found[0]] : [];
  });
}

/**
 * Designators in a log's columns for them, each once and as first typed; what stands where somebody is typing does not
 * count.
 */
export function designatorsNamed(doc: LogDocument, typing: Span): string[] {
  const found = new Map<string, string>();
  for (const { start, block } of doc.blocks) {
    const elsewhere = textRegionsOfBlock(block).filter(
      ({ span: at }) => at.end + start < typing.start || at.start + start > typing.end,
    );
    for (const ref of designatorsIn(block.source.text, elsewhere))
      if (!found.has(ref.toUpperCase())) found.set(ref.toUpperCase(), ref);
  }
  return [...found.values()];
}

const designatorsOf = memo((block: LogBlock): readonly string[] =>
  designatorsIn(block.source.text, textRegionsOfBlock(block)),
);
const ownOf = new Map<string, NameIndex>();

/** The same object for the same names, by which blocks keep what was found in them. */
function ownNames(doc: LogDocument, board: Board | undefined): NameIndex | undefined {
  const own = new Set<string>();
  for (const { block } of doc.blocks) for (const ref of designatorsOf(block)) own.add(ref.toUpperCase());
  for (const name of board?.parts.keys() ?? []) own.delete(entityKey({ kind: "parts", name }));
  if (own.size === 0) return undefined;
  const key = [...own].sort().join(" ");
  let names = ownOf.get(key);
  if (!names) {
    names = nameIndex([...own].map((name): Entity => ({ kind: "parts", name })));
    // A designator that is being typed makes one of these for each letter.
    if (ownOf.size > 50) ownOf.clear();
    ownOf.set(key, names);
  }
  return names;
}
