// Which cuts of a text stay in the next one: those that stand before the change, and those behind it, wherever they move.

import type { CutText } from "./block-cache";

/** Characters of a heading that tell that it is one: its marks and what follows them. */
const MARKED = 8;

/** Where the cut behind the first so many begins. */
export const startAfter = ({ text, cuts }: CutText, count: number): number =>
  cuts[count]?.start ?? text.length;

/** Where the last so many cuts of the latest text would begin in another one that ends as it does. */
export const startOfLast = (text: string, { text: before, cuts }: CutText, count: number): number =>
  cuts[cuts.length - count]!.start + text.length - before.length;

/**
 * How many cuts at the beginning are those of another text, and how many at the end have the same words. Those of the
 * beginning stay; those of the end do from the first on at which the text is cut.
 *
 * @param frontEnd where front matter would end, if it is any
 *
 * A cut hangs on the text before it and on the heading behind it; from a cut on everything hangs on the text behind it.
 */
export function cutsThatStay(
  text: string,
  bom: number,
  frontEnd: number | undefined,
  latest: CutText | undefined,
): { readonly ahead: number; readonly behind: number } {
  if (!latest) return { ahead: 0, behind: 0 };
  const { text: before, cuts } = latest;
  let ahead = 0;
  const frontBefore = cuts[0]?.place === "front" ? startAfter(latest, 1) : undefined;
  if (cuts[0]?.start === bom && frontBefore === frontEnd) {
    while (ahead < cuts.length && stands(text, latest, ahead, 0)) ahead++;
    if (ahead === cuts.length) ahead--;
    while (ahead > 0 && !leadsOn(text, latest, ahead)) ahead--;
  }
  const moved = text.length - before.length;
  const most = cuts.length - Math.max(ahead, frontBefore === undefined ? 0 : 1);
  let behind = 0;
  while (behind < most && stands(text, latest, cuts.length - 1 - behind, moved)) behind++;
  return { ahead, behind };
}

function stands(text: string, { cuts }: CutText, index: number, moved: number): boolean {
  const { start, reading } = cuts[index]!;
  return start + moved >= 0 && text.startsWith(reading.block!.text, start + moved);
}

/** The next one begins as it did. */
function leadsOn(text: string, { cuts }: CutText, index: number): boolean {
  const { start, reading } = cuts[index]!;
  const words = reading.block!.text;
  return words.length >= MARKED && text.startsWith(words.slice(0, MARKED), start);
}
