// The findings of a log about several boards, put together: what is in a board's sections is found there once, what is in
// the front matter may be found for each board.

import type { LogDocument } from "../log/document";
import { contains } from "../text/span";
import { type Finding, withOtherWords } from "./check";
import { checkOf } from "./registry";

/**
 * @param each findings of each board, in the order of the boards
 * @param once what was found of the log as a whole
 */
export function findingsOfSet(
  each: readonly (readonly Finding[])[],
  once: readonly Finding[],
  log: { readonly doc: LogDocument; readonly set?: readonly { readonly doc: LogDocument }[] },
): readonly Finding[] {
  const front = log.doc.parsed.frontMatter?.span;
  const isInFront = ({ span }: Finding): boolean => front !== undefined && contains(front, span.start);
  const count = new Map<string, number>();
  const places = new Map<string, number>();
  for (const own of each) {
    const here = own.filter(isInFront);
    for (const key of new Set(here.map(keyOf))) count.set(key, (count.get(key) ?? 0) + 1);
    for (const place of new Set(here.map(placeOf))) places.set(place, (places.get(place) ?? 0) + 1);
  }
  const seen = new Set<string>();
  const all: Finding[] = [];
  for (const [at, own] of each.entries()) {
    for (const finding of own) {
      if (!isInFront(finding)) {
        all.push(finding);
        continue;
      }
      const check = checkOf(finding.code);
      const mustAgree = check?.scope === "document" && check.ofSet === "all-agree";
      if (mustAgree && (places.get(placeOf(finding)) ?? 0) < each.length) continue;
      // Said of every board in the same words, or at a place that is one board's own: its name would add nothing.
      const name = log.set?.[at]?.doc.ofSet?.name;
      const isShared = mustAgree || count.get(keyOf(finding)) === each.length;
      const key = isShared ? placeOf(finding) : keyOf(finding);
      if (seen.has(key)) continue;
      seen.add(key);
      all.push(
        isShared || name === undefined || (places.get(placeOf(finding)) === 1 && isOfEntry(finding))
          ? finding
          : withOtherWords(finding, { fact: `${name}: ${finding.fact}` }),
      );
    }
  }
  return [...all, ...once];
}

const placeOf = ({ code, span }: Finding): string => `${code} ${span.start} ${span.end}`;
const keyOf = (finding: Finding): string => `${placeOf(finding)} ${finding.message}`;

/** It stands at one board's own entry, which says whose it is. */
const isOfEntry = ({ code }: Finding): boolean => code === "unknown-board";
