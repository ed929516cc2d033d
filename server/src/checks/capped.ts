// A table that has more findings of one kind than anybody reads shows the first of them, and says of the last how many
// more there are. The others stand with it as related places, and their rows keep their verdicts.

import type { LogDocument } from "../log/document";
import { contains } from "../text/span";
import { type Finding, withOtherWords } from "./check";
import { checkOf } from "./registry";

/** Of one kind and weight in one table: as many as a panel shows at once. Common practice, no source. */
const MOST = 10;

/** Findings in the order of their places. Those of a check with fixes stay: each has a fix of its own. */
export function capped(doc: LogDocument, found: readonly Finding[]): readonly Finding[] {
  const many = countBy(found, kindOf);
  if (![...many.values()].some((count) => count > MOST + 1)) return found;
  const tableAt = tableFinder(doc);
  const groups = new Map<string, Finding[]>();
  for (const finding of found) {
    if ((many.get(kindOf(finding)) ?? 0) <= MOST + 1 || checkOf(finding.code)?.noFix === undefined) continue;
    const table = tableAt(finding.span.start);
    if (table === undefined) continue;
    const key = `${table} ${kindOf(finding)}`;
    const group = groups.get(key);
    if (group) group.push(finding);
    else groups.set(key, [finding]);
  }
  const hidden = new Set<Finding>();
  const instead = new Map<Finding, Finding>();
  for (const group of groups.values()) {
    const last = group[MOST - 1];
    // One more is no longer than the words for it.
    if (!last || group.length <= MOST + 1) continue;
    const more = group.slice(MOST);
    for (const one of more) hidden.add(one);
    const step = [last.step, `And ${more.length} more like it in this table.`].filter(Boolean).join(" ");
    instead.set(last, {
      ...withOtherWords(last, { step }),
      related: [
        ...more.map(({ span, message }) => ({ uri: doc.uri, span, message })),
        ...(last.related ?? []),
      ],
    });
  }
  if (hidden.size === 0) return found;
  return found.flatMap((finding) => (hidden.has(finding) ? [] : [instead.get(finding) ?? finding]));
}

const kindOf = ({ code, severity }: Finding): string => `${code} ${severity}`;

function countBy<T>(all: readonly T[], key: (one: T) => string): Map<string, number> {
  const counts = new Map<string, number>();
  for (const one of all) counts.set(key(one), (counts.get(key(one)) ?? 0) + 1);
  return counts;
}

/** Where the table that a place lies in begins. */
function tableFinder(doc: LogDocument): (at: number) => number | undefined {
  return (at) => {
    const placed = doc.blocks.find(({ start, block }) =>
      contains({ start, end: start + block.source.text.length }, at),
    );
    const table = placed?.block.tables.find(({ span }) => contains(span, at - placed.start));
    return placed && table && placed.start + table.span.start;
  };
}
