// A table that has more findings of one kind than anybody reads shows the first of them, and says of the last how many
// more there are. The others stand with it as related places, and their rows keep their verdicts.

import { blockAt, type LogDocument } from "../log/document";
import { contains } from "../text/span";
import { type Finding, withOtherWords } from "./check";
import { checkOf } from "./registry";

/** Of one kind and weight in one table: as many as a panel shows at once. Common practice, no source. */
const MOST = 10;

/** Findings in the order of their places. Those of a check with fixes stay: each has a fix of its own. */
export function capped(doc: LogDocument, found: readonly Finding[]): readonly Finding[] {
  const many = byKind(found).filter((all) => all.length > MOST + 1);
  if (many.length === 0) return found;
  const tableAt = tableFinder(doc);
  const groups = many.flatMap((all) =>
    checkOf(all[0]?.code ?? "")?.noFix === undefined ? [] : byTable(all, tableAt),
  );
  const hidden = new Set<Finding>();
  const instead = new Map<Finding, Finding>();
  for (const group of groups) {
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

/** Those of one code and weight together, in their order. */
function byKind(found: readonly Finding[]): readonly (readonly Finding[])[] {
  const codes = new Map<string, Map<string, Finding[]>>();
  for (const finding of found) {
    const { code, severity } = finding;
    const own = codes.get(code) ?? new Map<string, Finding[]>();
    codes.set(code, own);
    const kind = own.get(severity);
    if (kind) kind.push(finding);
    else own.set(severity, [finding]);
  }
  return [...codes.values()].flatMap((own) => [...own.values()]);
}

function byTable(
  found: readonly Finding[],
  tableAt: (at: number) => number | undefined,
): readonly (readonly Finding[])[] {
  const tables = new Map<number, Finding[]>();
  for (const finding of found) {
    const table = tableAt(finding.span.start);
    const group = table === undefined ? undefined : tables.get(table);
    if (group) group.push(finding);
    else if (table !== undefined) tables.set(table, [finding]);
  }
  return [...tables.values()];
}

/** Where the table that a place lies in begins. */
function tableFinder(doc: LogDocument): (at: number) => number | undefined {
  return (at) => {
    const placed = blockAt(doc, at);
    const table = placed?.block.tables.find(({ span }) => contains(span, at - placed.start));
    return placed && table && placed.start + table.span.start;
  };
}
