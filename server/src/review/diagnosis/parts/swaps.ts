// Parts that were swapped for others, as the diagnosis takes it: it works with another one, or nothing changed.

import type { Against, SignFinding } from "../../../compute/diagnosis/types";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board } from "../../../knowledge/types";
import type { LogDocument } from "../../../log/document";
import type { Timeline, WorkRow } from "../../../log/timeline";
import { swapOutcome } from "../../../log/timeline/swaps";
import { shift } from "../../../text/span";
import type { LocatedObservation } from "../observation";
import { sentencesOf } from "../words/sentences";

const SWAP = /\b(?:swap|tried|try|exchang|substitut|known[- ]good|replac|renew|piggy)/i;

/** Only what was put back, or tried: what was replaced for good makes history of what was read before. */
export function swapObservations({ rows }: Timeline, board: Board): LocatedObservation[] {
  return rows.flatMap((row): LocatedObservation[] => {
    // A table of swaps is read by its results.
    if (row.kind !== "work" || row.state === "planned" || row.table.kind.holds === "swaps") return [];
    const action = row.actionText?.text ?? "";
    const note = row.note?.text ?? "";
    if (!SWAP.test(`${action} ${note}`)) return [];
    const told = swapOutcome(`${action}, ${note}`);
    if (told === undefined || told === "worse" || (told !== "same" && row.state !== "put-back")) return [];
    return row.refs.flatMap((typed) => {
      const part = boardIndex(board).part(typed);
      return part ? [told === "same" ? same(row, part.ref) : better(row, part.ref)] : [];
    });
  });
}

const SAME =
  "(?:the )?same|as before|no (?:better|change|difference|improvement|effect|help)|unchanged|nothing changed";
/** "No better, dips as before.", "Same after that", "Lamps the same", and not "the same as pin 4". */
const IN_VAIN = new RegExp(
  `^\\W*(?:(?:still|but|and|exactly|all|it is|it's|sadly) )*(?:${SAME})\\b(?! (?:as (?!before)|at|on|for|pin|net|voltage|part|type)\\b)|\\b(?:${SAME})[.!]*\\s*$|\\bas before\\b|\\bagain\\b.*\\bsame\\b|\\b(?:did|does|has) ?(?:not|n't) (?:help|cure)`,
  "i",
);
const A_PART = /\b(?:U|IC|VR|Q|R|C|D|BR|K|L|Y|RN|T)\d{1,3}\b/g;

/** What was replaced, where the words behind the work or the remarks of what was read again say that nothing changed. */
export function replacedInVain(doc: LogDocument, { rows }: Timeline, board: Board): LocatedObservation[] {
  const found: LocatedObservation[] = [];
  let done: readonly WorkRow[] = [];
  for (const { block } of doc.blocks) {
    // In the order in which they stand.
    const told = [
      ...block.tables.map((table) => ({ at: table.span.start, table, text: "" })),
      ...sentencesOf(block).map(({ at, text }) => ({ at, table: undefined, text })),
    ].sort((a, b) => a.at - b.at);
    for (const { table, text } of told) {
      const own = table ? rows.filter((row) => row.table === table && row.replaced) : [];
      if (own.length > 0) done = own;
      if (own.length > 0 || done.length === 0) continue;
      const refs = new Set(done.flatMap((row) => row.refs));
      const isOfThem = (words: string): boolean =>
        IN_VAIN.test(words) && [...words.matchAll(A_PART)].every(([ref]) => refs.has(ref.toUpperCase()));
      const isSame = table
        ? !table.pieces &&
          table.section.qualifiers.repair !== "before" &&
          table.readings.some(({ subject }) => isOfThem(subject.note?.text ?? ""))
        : isOfThem(text);
      if (isSame)
        for (const row of done)
          for (const typed of row.refs) {
            const part = boardIndex(board).part(typed);
            if (part) found.push(same(row, part.ref));
          }
      // What is said further on is of something else.
      if (!table || isSame) done = [];
    }
  }
  return found;
}

const placed = ({ row, start, repair }: WorkRow, ref: string): Omit<LocatedObservation, "finding"> => ({
  key: `swap ${ref}`.toUpperCase(),
  what: `another ${ref} in its place`,
  span: shift(row.span, start),
  refs: [],
  phase: repair,
});

const same = (row: WorkRow, ref: string): LocatedObservation => ({
  ...placed(row, ref),
  against: [{ ref, by: "swap-same" } satisfies Against],
});

const better = (row: WorkRow, ref: string): LocatedObservation => ({
  ...placed(row, ref),
  finding: {
    kind: "sign",
    sign: "swap-better",
    refs: [ref],
    of: `the swap of ${ref}`,
    says: `With another part in the place of ${ref} it worked.`,
  } satisfies SignFinding,
});
