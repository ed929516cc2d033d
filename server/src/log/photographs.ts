// The photographs that a log shows, each with its caption and whether it is of before or after the work.

import type { Nodes } from "mdast";
import { memo } from "../base/memo";
import { nodeSpan } from "../syntax/node-span";
import { type Span, shift } from "../text/span";
import type { LogDocument } from "./document";
import type { LogBlock, Section } from "./model";
import { decoded } from "./paths";

export interface Photograph {
  /** As typed between the brackets, marks left out; empty where there is none. */
  readonly caption: string;
  /** Relative to the log, percent signs decoded, "/" between folders. */
  readonly path: string;
  /** By its caption, else by the heading over it. */
  readonly when?: "before" | "after";
  /** Of the whole image. */
  readonly span: Span;
}

/** A photograph of before, with the one of after that has the same caption besides. */
export interface PhotographPair {
  readonly before: Photograph;
  readonly after: Photograph;
  /** The caption that they share. */
  readonly of: string;
}

export interface Photographs {
  /** In the order of the log. */
  readonly all: readonly Photograph[];
  readonly pairs: readonly PhotographPair[];
}

/** Nothing with a scheme, and nothing that is data: only files are photographs of a workspace. */
const isFile = (address: string): boolean =>
  address !== "" && !/^(?:[a-z][a-z0-9+.-]+:|\/\/|#)/i.test(address);

/** The pictures that a block shows. Spans are of the block; looked for once. */
export const photographsIn = memo((block: LogBlock): readonly Photograph[] => {
  const { text, outline } = block.source;
  const found: Photograph[] = [];
  const visit = (node: Nodes): void => {
    if (node.type === "image" && isFile(node.url)) {
      const span = nodeSpan(text, node);
      const path = decoded(/^[^?#]*/.exec(node.url)?.[0] ?? "").replaceAll("\\", "/");
      const caption = (node.alt ?? "").replace(/\s+/g, " ").trim();
      const when = span && (whenSaid(caption) ?? sectionAt(block, span)?.qualifiers.repair);
      if (span && path !== "") found.push({ caption, path, span, ...(when ? { when } : {}) });
    }
    if ("children" in node) for (const child of node.children) visit(child);
  };
  for (const node of outline.children) visit(node);
  return found.sort((a, b) => a.span.start - b.span.start);
});

/** The pictures that a log shows, and which of them are before and after of one thing. Spans are of the document. */
export const photographs = (doc: LogDocument): Photographs => {
  const all = doc.blocks.flatMap(({ start, block }) =>
    photographsIn(block).map((one) => ({ ...one, span: shift(one.span, start) })),
  );
  return { all, pairs: pairsOf(all) };
};

const SAID = /\b(?:before|after)\b/i;

function whenSaid(caption: string): "before" | "after" | undefined {
  const word = SAID.exec(caption)?.[0].toLowerCase();
  return word === "before" || word === "after" ? word : undefined;
}

/** The last section that begins above it. */
const sectionAt = ({ sections }: LogBlock, { start }: Span): Section | undefined =>
  sections.findLast(({ heading }) => heading === undefined || heading.span.start <= start);

/** What is left of a caption without the words that say when. */
const subjectOf = (caption: string): string =>
  caption
    .replace(/\b(?:before|after)(?:\s+(?:the\s+)?(?:repair|work|cleaning))?\b/gi, " ")
    .replace(/[\s,;:()–—-]+/g, " ")
    .trim();

/** Each with the next of after that nobody has yet. */
function pairsOf(all: readonly Photograph[]): PhotographPair[] {
  const taken = new Set<Photograph>();
  return all.flatMap((before): PhotographPair[] => {
    if (before.when !== "before") return [];
    const of = subjectOf(before.caption);
    const after = all.find(
      (one) =>
        one.when === "after" && !taken.has(one) && subjectOf(one.caption).toUpperCase() === of.toUpperCase(),
    );
    if (!after) return [];
    taken.add(after);
    return [{ before, after, of }];
  });
}
