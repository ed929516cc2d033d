import { hasBoardFile } from "../../judge/context";
import type { Span } from "../../text/span";
import type { Refactor } from "../types";
import type { LogView } from "../view";
import { noLongerReference, takeAsReference, whyNoReference } from "./mark";

const TAKE = "Take this job as the reference";

/** Offered in the front matter and on the title. */
export function referenceActions(view: LogView, selected: Span): readonly Refactor[] {
  if (!isOfJob(view, selected)) return [];
  const back = noLongerReference(view);
  if (back)
    return [
      { title: "No longer take this job as the reference", kind: "rewrite", edits: [back] },
      ...limits(view),
    ];
  const take = takeAsReference(view);
  if (take) return [{ title: TAKE, kind: "rewrite", edits: [take] }, ...limits(view)];
  const disabled = whyNoReference(view);
  return disabled === undefined ? [] : [{ title: TAKE, kind: "rewrite", edits: [], disabled }];
}

/** Where other boards were read or this one is a reference, and there is a file to write into. */
function limits({ ctx, front }: LogView): Refactor[] {
  if (!hasBoardFile(ctx) || !(front.reference || ctx.references || ctx.baselines)) return [];
  return [
    { title: "Propose these limits for the board file", kind: "rewrite", edits: [], asks: "propose-limits" },
  ];
}

function isOfJob({ doc }: LogView, { start, end }: Span): boolean {
  const front = doc.parsed.frontMatter?.content;
  if (front && end <= front.end + 4) return true;
  return doc.blocks.some((placed) =>
    placed.block.sections.some(
      ({ heading }) =>
        heading?.depth === 1 &&
        start >= placed.start + heading.span.start &&
        end <= placed.start + heading.span.end,
    ),
  );
}
