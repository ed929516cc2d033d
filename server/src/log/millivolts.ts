// Many meters show a drop in whole millivolts, and so a whole table may be copied down without a unit.
import { memo } from "../base/memo";
import type { ColumnSpec } from "../knowledge/types";
import type { RowWords } from "../syntax/tables";
import type { TableColumn } from "./model";

/** Fewer figures may be slips; so many tell the habit. */
const LEAST = 3;
const SHARE = 0.8;
/** Drops lie between these, in millivolts; shorts below and none above. Common practice, no source. */
const USUAL: readonly [number, number] = [80, 2500];

/** True where the figures under a column of diode drops without a unit can only be millivolts. */
export function inMillivolts(
  spec: ColumnSpec | undefined,
  columns: readonly (TableColumn | undefined)[],
  parts: readonly (readonly RowWords[])[],
  measuredAt: readonly number[],
): boolean {
  if (spec?.quantity !== "voltage" || measuredAt.some((at) => columns[at]?.unit !== undefined)) return false;
  const counts = parts.map((rows) => figuresIn(rows, measuredAt.join()));
  const sum = (count: keyof FigureCount): number => counts.reduce((all, one) => all + one[count], 0);
  return sum("drops") >= LEAST && sum("whole") / sum("all") >= SHARE;
}

interface FigureCount {
  readonly all: number;
  readonly whole: number;
  readonly drops: number;
}

/** Under columns by their numbers, with commas between. */
const figuresIn = memo((rows: readonly RowWords[], columns: string): FigureCount => {
  const measuredAt = columns === "" ? [] : columns.split(",").map(Number);
  const figures = rows.flatMap(({ cells }) =>
    measuredAt.flatMap((at) => {
      const text = cells[at]?.text ?? "";
      return /^\d+(?:[.,]\d+)?$/.test(text) ? [text] : [];
    }),
  );
  const drops = figures.filter(
    (text) => /^\d{2,4}$/.test(text) && Number(text) >= USUAL[0] && Number(text) <= USUAL[1],
  );
  const whole = figures.filter((text) => /^\d+$/.test(text));
  return { all: figures.length, whole: whole.length, drops: drops.length };
});
