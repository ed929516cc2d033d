import type { Reading } from "../../../log/model";
import type { Cell } from "../../../syntax/tables";

/** The header of the column that a reading stands in. */
export function headerOver({ table, cell }: Pick<Reading, "table" | "cell">): Cell | undefined {
  const row = table.source.rows.find(({ cells }) => cells.includes(cell));
  return table.source.header.cells[row?.cells.indexOf(cell) ?? -1];
}

const PEAK_TO_PEAK = /\bv?\s?(?:pp|p-p|pk-pk|ss)\b|\b(?:swings?|peak to peak|amplitude|signal size)\b/i;

/** Volts from one peak to the other, by their unit or by the header over them: what moves, and no level. */
export const isPeakToPeak = (reading: Pick<Reading, "table" | "cell" | "value" | "spec">): boolean => {
  const { value, spec } = reading;
  if (value.kind === "quantity" && value.quantity.qualifier !== undefined)
    return value.quantity.qualifier === "pp";
  if (spec.quantity !== "voltage") return false;
  const { cells } = reading.table.source.header;
  return (
    cells.some(({ text }) => PEAK_TO_PEAK.test(text)) && PEAK_TO_PEAK.test(headerOver(reading)?.text ?? "")
  );
};
