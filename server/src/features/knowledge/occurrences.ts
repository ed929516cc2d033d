import type { Highlight } from "../document-highlight";
import type { Token } from "../semantic-tokens";
import { TYPE_OF } from "../semantic-tokens/legend";
import type { KnowledgeFile } from "../shared/knowledge-file";
import { type EntityReference, knowledgeMentions, mentionAt, sameThing } from "../shared/mentions";

/** The other places of what the cursor touches, the entry that says there is such a thing among them. */
export function highlightsInKnowledge(file: KnowledgeFile, offset: number): readonly Highlight[] | undefined {
  const all = knowledgeMentions(file);
  const here = mentionAt(all, offset);
  if (!here) return undefined;
  const pin = here.pin && offset > here.span.end ? here.pin.text.toUpperCase() : undefined;
  return all
    .filter(({ thing, pin: other }) => {
      const same = sameThing(thing, here.thing);
      return same && (pin === undefined || other?.text.toUpperCase() === pin);
    })
    .map((mention) => ({
      span: pin !== undefined && mention.pin ? mention.pin.span : mention.span,
      kind: mention.declares ? "done" : "named",
    }));
}

const KINDS = { parts: TYPE_OF.part, nets: TYPE_OF.net, rails: TYPE_OF.net } as const;

/** Parts, pins, nets and rails by their names, in the file's order. */
export function tokensInKnowledge(file: KnowledgeFile): Token[] {
  const tokens: Token[] = [];
  const add = (span: Token["span"], type: Token["type"] | undefined): void => {
    const free = span.end > span.start && span.start >= (tokens.at(-1)?.span.end ?? 0);
    if (type && free && !/[\r\n]/.test(file.text.slice(span.start, span.end)))
      tokens.push({ span, type, modifiers: [] });
  };
  for (const { thing, span, pin, place } of knowledgeMentions(file)) {
    if (place === "remark") continue;
    add(span, kindOf(thing.kind));
    if (pin) add(pin.span, TYPE_OF.pin);
  }
  return tokens;
}

const kindOf = (kind: EntityReference["thing"]["kind"]): Token["type"] | undefined =>
  kind === "parts" || kind === "nets" || kind === "rails" ? KINDS[kind] : undefined;
