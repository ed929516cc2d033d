// What the rows of the proving tables say of the board's items, and rows of other tables that name one of them.
import { defined } from "../../base/defined";
import { judgeBlock } from "../../judge";
import type { LogContext } from "../../judge/context";
import type { ProvingItem } from "../../knowledge/types";
import type { LocatedTable } from "../../log/model";
import { isRowSinceRepair, type Timeline } from "../../log/timeline";
import { shift } from "../../text/span";
import { itemNamed } from "./item-named";
import { okOf } from "./ok";
import type { ProofClaim, ProvingReview } from "./types";

export interface ProofStatement extends ProofClaim {
  /** Absent where the row leaves it open. */
  readonly ok?: boolean;
  readonly note?: string;
  readonly since: boolean;
}

export interface Statements {
  readonly of: ReadonlyMap<ProvingItem, readonly ProofStatement[]>;
  readonly beside: ProvingReview["beside"];
}

export function statements(
  tables: readonly LocatedTable[],
  items: readonly ProvingItem[],
  timeline: Timeline,
  ctx: LogContext,
): Statements {
  const of = new Map<ProvingItem, ProofStatement[]>();
  const beside: ProvingReview["beside"][number][] = [];
  for (const { table, start, block } of tables) {
    const isList = table.kind.holds === "proving";
    const speaks = table.kind.speaksOfItems;
    if (!isList && speaks === undefined) continue;
    for (const reading of table.readings) {
      const { subject, value, row, spec, cell } = reading;
      const typed = subject.item;
      if (!typed || spec.role !== "result") continue;
      const note = subject.note?.text.trim();
      const span = shift(cell.span.end > cell.span.start ? cell.span : typed.span, start);
      const item = itemNamed(typed.text, items);
      if (!isList) {
        // Of its own item the table is evidence as a whole.
        if (!item || item.procedure === table.procedure.id) continue;
      } else if (!item) {
        beside.push(defined({ item: typed.text, result: value.typed, span, note: note || undefined }));
        continue;
      }
      const ok = okOf(reading, isList ? undefined : judgeBlock(block, ctx).get(reading)?.verdict);
      if (speaks === "against" && ok !== false) continue;
      const day = subject.date?.text;
      const result = value.kind === "empty" ? "leaves it open" : `says "${value.typed}"`;
      const list = of.get(item) ?? [];
      of.set(item, list);
      list.push(
        defined({
          span,
          text: `the ${isList ? "proving table" : `table "${table.procedure.title}"`} ${result}${day ? ` on ${day}` : ""}`,
          since: isRowSinceRepair(timeline, table, row),
          ok,
          note: note || undefined,
        }),
      );
    }
  }
  return { of, beside };
}
