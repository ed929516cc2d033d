import { blockAt } from "../../log/document";
import { type Photograph, photographs, photographsIn } from "../../log/photographs";
import { joined, type Markdown, markdown, md } from "../../text/markdown";
import { shift, touches } from "../../text/span";
import type { Hover } from "../types";
import type { LogView } from "../view";

/** Bytes up to which a photograph is shown beside the text; a larger one is opened by its link. */
const MOST_SHOWN = 20 * 1024 * 1024;

/** A photograph with its caption and its counterpart; the picture itself only of files that lie in the workspace. */
export function hoverPhotograph(view: LogView, offset: number): Hover | undefined {
  const placed = blockAt(view.doc, offset);
  const found =
    placed && photographsIn(placed.block).find(({ span }) => touches(shift(span, placed.start), offset));
  if (!placed || !found) return undefined;
  const { pairs } = photographs(view.doc);
  const at = shift(found.span, placed.start);
  const pair = pairs.find(
    ({ before, after }) => before.span.start === at.start || after.span.start === at.start,
  );
  const shown = (pair ? [pair.before, pair.after] : [found]).filter((one) => isShown(view, one));
  const words = [
    found.caption === "" ? markdown`A photograph without a caption.` : markdown`**${md(found.caption)}**`,
    pair
      ? markdown`Before and after of ${pair.of === "" ? markdown`the same place` : md(pair.of)}.`
      : markdown``,
    sizeOf(view, found),
  ].filter((line) => line !== "");
  return {
    span: at,
    markdown: joined(words, "\n\n"),
    photographs: shown.map(({ path, caption }) => ({ path, alt: caption })),
  };
}

/** True of a file that was looked at and lies in the workspace. */
function isShown({ ctx }: LogView, { path }: Photograph): boolean {
  const file = ctx.images?.get(path);
  return file?.ok === false && file.reason === "too-large" && (file.size ?? 0) <= MOST_SHOWN;
}

function sizeOf({ ctx }: LogView, { path }: Photograph): Markdown {
  const file = ctx.images?.get(path);
  if (file?.ok !== false) return markdown``;
  if (file.reason === "absent") return markdown`There is no file at ${md(path)}.`;
  if (file.reason === "outside") return markdown`It lies outside the workspace and is not read.`;
  const size = file.size;
  return size === undefined ? markdown`` : markdown`${md(path)}, ${inWords(size)}.`;
}

/** @param size bytes; a kilobyte is the least that is said */
function inWords(size: number): Markdown {
  const kilobytes = Math.max(1, Math.round(size / 1024));
  return kilobytes < 1000 ? markdown`${kilobytes} kB` : markdown`${md((size / 1024 / 1024).toFixed(1))} MB`;
}
