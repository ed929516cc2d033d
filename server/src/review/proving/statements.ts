// What the rows of the proving tables say of the board's items.
import { defined } from "../../base/defined";
import type { ProvingItem } from "../../knowledge/types";
import type { PlacedTable } from "../../log/model";
import { isRowSinceRepair, type Timeline } from "../../log/timeline";
import { shift } from "../../text/span";
import type { ProvingReview, Said } from "./types";

export interface Statement extends Said {
  /** Absent where the row leaves it open. */
  readonly ok?: boolean;
  readonly note?: string;
  readonly since: boolean;
}

export interface Statements {
  readonly of: ReadonlyMap<ProvingItem, readonly Statement[]>;
  readonly beside: ProvingReview["beside"];
}

export function statements(
  tables: readonly PlacedTable[],
  items: readonly ProvingItem[],
  timeline: Timeline,
): Statements {
  const of = new Map<ProvingItem, Statement[]>();
  const beside: ProvingReview["beside"][number][] = [];
  for (const { table, start } of tables) {
    if (table.kind.holds !== "proving") continue;
    for (const { subject, value, row, spec, cell } of table.readings) {
      const typed = subject.item;
      if (!typed || spec.role !== "result") continue;
      const note = subject.note?.text.trim();
      const span = shift(cell.span.end > cell.span.start ? cell.span : typed.span, start);
      const item = itemNamed(typed.text, items);
      if (!item) {
        beside.push(defined({ item: typed.text, result: value.typed, span, note: note || undefined }));
        continue;
      }
      const ok = value.kind === "result" ? value.ok : undefined;
      const day = subject.date?.text;
      const result = value.kind === "empty" ? "leaves it open" : `says "${value.typed}"`;
      const list = of.get(item) ?? [];
      of.set(item, list);
      list.push(
        defined({
          span,
          text: `the proving table ${result}${day ? ` on ${day}` : ""}`,
          since: isRowSinceRepair(timeline, table, row),
          ok,
          note: note || undefined,
        }),
      );
    }
  }
  return { of, beside };
}

/** The item with that id or title: marks, case and blanks do not count, nor "the", "all" and "every" before it. */
export function itemNamed(typed: string, items: readonly ProvingItem[]): ProvingItem | undefined {
  const wanted = fold(typed);
  if (wanted === "") return undefined;
  return (
    items.find(({ id }) => fold(id) === wanted) ??
    items.find(({ title }) => fold(title) === wanted) ??
    onlyOne(items.filter(({ title }) => bare(title) === bare(typed)))
  );
}

const onlyOne = <T>(found: readonly T[]): T | undefined => (found.length === 1 ? found[0] : undefined);

const fold = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();

const bare = (text: string): string => fold(text).replace(/^(?:(?:the|all|every|each)\s+)+/, "");
