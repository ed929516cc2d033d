// The chips of a table with what explains each, thought over again only where something else was read.

import { memo } from "../../base/memo";
import type { CauseExplanation, PinWindow, RowRead } from "../../compute/together/types";
import type { LogTable } from "../../log/model";
import type { LogContext } from "../context";
import { type ChipInTable, chipsIn, type TakenAs } from "./rows";

export interface Explaining<Row extends RowRead = RowRead, Window extends PinWindow = PinWindow> {
  readonly chip: ChipInTable<Row, Window>;
  /** The likeliest first. */
  readonly causes: readonly CauseExplanation[];
}

/** Every chip of the table, in the order of the table. */
export function explainedChips<Row extends RowRead, Window extends PinWindow>(
  table: LogTable,
  ctx: LogContext,
  as: TakenAs<Row, Window>,
  explain: (chip: ChipInTable<Row, Window>) => readonly CauseExplanation[],
): readonly Explaining<Row, Window>[] {
  const chips = chipsIn(table, ctx, as);
  const columns = table.pieces?.[0]?.table.columns;
  if (!columns) return chips.map((chip) => ({ chip, causes: explain(chip) }));
  const kept = explainedBefore(columns, ctx, as);
  const before = kept.last;
  kept.last = new Map();
  return chips.map((chip): Explaining<Row, Window> => {
    const known = before.get(chip.ref);
    const causes = known && sameRows(known.chip.rows, chip.rows) ? known.causes : explain(chip);
    const explaining = { chip, causes };
    kept.last.set(chip.ref, explaining);
    return explaining;
  });
}

/** The chips of a long table as they were last, kept with its columns, which stay while only rows change. */
const explainedBefore = memo(
  (
    _columns: LogTable["columns"],
    _ctx: LogContext,
    _as: TakenAs<RowRead, PinWindow>,
  ): { last: Map<string, Explaining> } => ({ last: new Map() }),
);

const sameRows = (a: readonly RowRead[], b: readonly RowRead[]): boolean =>
  a.length === b.length && a.every((row, at) => isSame(row, b[at]));

function isSame(row: RowRead, other: RowRead | undefined): boolean {
  if (row === other) return true;
  const names = Object.keys(row) as (keyof RowRead)[];
  return other !== undefined && names.every((name) => Object.is(row[name], other[name]));
}
