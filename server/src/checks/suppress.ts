// Comments that allow a finding.

import { defined } from "../base/defined";
import type { LogDocument } from "../log/document";
import { inBlocks } from "../log/in-blocks";
import type { LocatedBlock } from "../log/model";
import { contains, shift } from "../text/span";
import { asFinding } from "./as-finding";
import type { CheckSettings, Finding } from "./check";
import { checkOf } from "./registry";
import unusedSuppression, { type UnusedSuppression } from "./unused-suppression";

const suppressing = inBlocks((block) => (block.suppressions.length > 0 ? true : undefined));

/**
 * Takes out what a comment allows, and reports the comments that allow nothing. A comment speaks for the
 * block it stands in; one above the first heading also for the front matter.
 */
export function suppress(doc: LogDocument, found: readonly Finding[], settings: CheckSettings): Finding[] {
  const blocks = suppressing(doc);
  if (blocks.length === 0) return [...found];
  const used = new Set<unknown>();
  const kept = found.filter((finding) => {
    for (const placed of blocks) {
      if (!speaksFor(doc, placed, finding)) continue;
      const hits = placed.block.suppressions.filter((s) => s.code === finding.code);
      for (const hit of hits) used.add(hit);
      if (hits.length > 0) return false;
    }
    return true;
  });
  for (const { start, block } of blocks) {
    for (const suppression of block.suppressions) {
      if (used.has(suppression)) continue;
      const known = checkOf(suppression.code) !== undefined;
      const says = known
        ? {
            fact: `This comment hides nothing: this section has no ${suppression.code} finding.`,
            step: "Remove it.",
          }
        : { fact: `This comment hides nothing: there is no check "${suppression.code}".` };
      const comment = block.comments.find(({ span }) => contains(span, suppression.span.start));
      const alike = block.suppressions.filter(({ span }) => comment && contains(comment.span, span.start));
      const data: UnusedSuppression | undefined = comment?.closed
        ? { comment: shift(comment.span, start), isWhole: !alike.some((one) => used.has(one)) }
        : undefined;
      const finding = asFinding(
        unusedSuppression,
        defined({
          span: shift(suppression.span, start),
          ...says,
          tags: ["unnecessary"],
          data,
        }),
        settings,
      );
      if (finding) kept.push(finding);
    }
  }
  return kept;
}

function speaksFor(doc: LogDocument, { start, block }: LocatedBlock, finding: Finding): boolean {
  if (contains({ start, end: start + block.source.text.length }, finding.span.start)) return true;
  const front = doc.parsed.frontMatter;
  const firstHeading = block.source.headings[0];
  const aboveHeadings =
    start === doc.blocks[0]?.start ||
    (start === doc.blocks[1]?.start && (!firstHeading || firstHeading.span.start > 0));
  return front !== undefined && aboveHeadings && contains(front.span, finding.span.start);
}
