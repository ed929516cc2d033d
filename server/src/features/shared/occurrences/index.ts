// What is named in a log and what is read in it: mentions, with the pins and the readings of tables among them. What
// colours a log and what finds a thing's other places read this one list.
import { memo } from "../../../base/memo";
import type { LogContext } from "../../../judge/context";
import { isOfWork } from "../../../log/kinds";
import type { LocatedBlock, LogBlock } from "../../../log/model";
import type { LogView } from "../../view";
import { type EntityReference, mentionsByBlock } from "../mentions";
import { pinOccurrenceKey, tellsOf, testPointAtPin, thingKeys } from "./keys";
import type { Occurrence } from "./occurrence";
import { tableOccurrences } from "./tables";

export interface BlockOccurrences extends LocatedBlock {
  /** In their order, none overlapping another; spans of the block. The same object while nothing in them changes. */
  readonly all: readonly Occurrence[];
}

/** All that is named and read in a log, in the order of the text. */
export interface Occurrences {
  /** Of the front matter; spans of the document. */
  readonly front: readonly Occurrence[];
  readonly blocks: readonly BlockOccurrences[];
}

/** Made again where asked; what is in a block is kept with the block. */
export function occurrencesIn({ doc, ctx }: LogView): Occurrences {
  const { front, blocks } = mentionsByBlock(doc, ctx.board?.value);
  return {
    front: inOrder(front.flatMap((mention) => fromMention(mention, doc.text, undefined, ctx))),
    blocks: blocks.map(({ start, block, mentions }) => ({
      start,
      block,
      all: ofBlock(block, mentions, ctx),
    })),
  };
}

const ofBlock = memo(
  (block: LogBlock, mentions: readonly EntityReference[], ctx: LogContext): readonly Occurrence[] =>
    inOrder([
      ...block.tables.flatMap((table) => tableOccurrences(table, ctx)),
      ...mentions.flatMap((mention) => fromMention(mention, block.source.text, block, ctx)),
    ]),
);

/** Of two that overlap the one gathered first is kept: tables know best what their cells hold. */
function inOrder(found: readonly Occurrence[]): Occurrence[] {
  const sorted = found
    .filter(({ span }) => span.end > span.start)
    .map((each, rank) => ({ each, rank }))
    .sort((a, b) => a.each.span.start - b.each.span.start || a.rank - b.rank);
  const kept: Occurrence[] = [];
  for (const { each } of sorted) if (each.span.start >= (kept.at(-1)?.span.end ?? 0)) kept.push(each);
  return kept;
}

const KINDS: Readonly<Partial<Record<EntityReference["thing"]["kind"], Occurrence["kind"]>>> = {
  parts: "part",
  nets: "net",
  rails: "net",
};

/** What follows a designator and names one of its pins. */
const PIN_BEHIND = /^,?[ \t]+(?:pins?|p\.)[ \t]*([A-Za-z]?\d{1,3})(?!\w)/i;

function fromMention(
  { thing, span, place, pin }: EntityReference,
  text: string,
  block: LogBlock | undefined,
  ctx: LogContext,
): Occurrence[] {
  const aside = place === "comment" || place === "written";
  const worked =
    place === "ref" &&
    block?.tables.some(
      (table) => isOfWork(table.kind) && span.start >= table.span.start && span.end <= table.span.end,
    );
  const own: Occurrence = {
    kind: KINDS[thing.kind] ?? "other",
    span,
    keys: thingKeys(thing, ctx),
    tells: [],
    done: worked ?? false,
    aside,
  };
  if (thing.kind !== "parts") return [own];
  const behind = pin ? undefined : PIN_BEHIND.exec(text.slice(span.end, span.end + 16));
  const end = behind ? span.end + behind[0].length : 0;
  const typed =
    pin ?? (behind?.[1] ? { text: behind[1], span: { start: end - behind[1].length, end } } : undefined);
  if (!typed) return [own];
  const at = testPointAtPin(thing.name, typed.text, ctx);
  return [
    own,
    { ...own, kind: "pin", span: typed.span, keys: [pinOccurrenceKey(at)], tells: tellsOf(at), done: false },
  ];
}
