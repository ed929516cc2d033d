// What a table says of its cells besides: what a mark means, which unit or which measure stands in a column of its own.

import { memo } from "../base/memo";
import type { ColumnSpec, Procedure } from "../knowledge/types";
import type { CellValue, CellWant } from "../quantity/cell-value";
import { parseCell } from "../quantity/parse-cell";
import { parseUnit } from "../quantity/units";
import { type RowWords, wordsInParts, wordsOfRows } from "../syntax/tables";
import { MOSTLY } from "./content/look";
import { headerWord, specFor } from "./headers";
import type { LogTable } from "./model";

/** A table by its columns, before its rows are read. */
type NamedTable = Pick<LogTable, "procedure" | "columns" | "source">;

/** A cell with what its table says of it besides: what a mark means, which unit stands in a column of its own. */
export function valueIn(
  text: string,
  want: CellWant,
  { meaning, unit }: { meaning: ((text: string) => string) | undefined; unit: string | undefined },
): CellValue {
  const meant = meaning?.(text) ?? text;
  if (meant !== text) return { ...parseCell(meant, want), typed: text };
  if (!unit || !/\d\s*$/.test(text)) return parseCell(text, want);
  const whole = parseCell(`${text} ${unit}`, want);
  return whole.kind === "quantity" ? { ...whole, typed: `${text} ${unit}` } : parseCell(text, want);
}

/** What is measured may stand in a column, "B-E" or "ripple", beside one of readings. */
export function measureColumn({ procedure, columns, source }: NamedTable): number {
  if (columns.filter(({ spec }) => spec?.role === "reading").length !== 1) return -1;
  return columns.findIndex(({ spec }, at) => {
    if (spec && spec.role !== "pin" && spec.role !== "signal" && spec.role !== "note") return false;
    const counts = wordsInParts(source).map((rows) => measuresIn(rows, procedure)(at));
    const sum = (of: "all" | "known"): number => counts.reduce((whole, one) => whole + one[of], 0);
    return sum("known") > 0 && sum("known") >= sum("all") * MOSTLY;
  });
}

/** For each column how many of its cells are filled, and how many name what is measured. */
const measuresIn = memo((rows: readonly RowWords[], procedure: Procedure) => {
  const columns = new Map<number, { readonly all: number; readonly known: number }>();
  return (at: number) => {
    const known = columns.get(at);
    if (known) return known;
    const texts = rows.flatMap(({ cells }) => cells[at]?.text || []);
    const count = { all: texts.length, known: texts.filter((text) => measureNamed(procedure, text)).length };
    columns.set(at, count);
    return count;
  };
});

export const measureNamed = (procedure: Procedure, text: string): ColumnSpec | undefined => {
  const spec = /\d/.test(text) ? undefined : specFor(procedure, headerWord(text));
  return spec?.role === "reading" ? spec : undefined;
};

/** A meter's log has the unit in a column of its own. */
export function unitColumn({ columns, source }: NamedTable): number {
  return columns.findIndex(({ spec, header }, at) => {
    if (spec || !/^units?$/i.test(header.text.trim())) return false;
    const texts = wordsOfRows(source).flatMap(({ cells }) => cells[at]?.text || []);
    return texts.length > 0 && texts.every((text) => parseUnit(text) !== undefined);
  });
}

/** Volts that the unit says to be of an alternating voltage: "131 mVAC". */
export const isAlternating = (value: CellValue): boolean =>
  value.kind === "quantity" &&
  value.quantity.dimension === "voltage" &&
  /^(?:ac|pp|rms)$/.test(value.quantity.qualifier ?? "");
