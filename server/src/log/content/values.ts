// Volts of a table's columns, for telling drops of junctions from levels.
import { unitOfHeader } from "../../quantity/units";
import { type ColumnLook, voltsOf } from "./look";
import type { TableContent } from "./table-content";

const figures = (columns: readonly ColumnLook[]): number[] =>
  columns.flatMap((column) =>
    column.texts.flatMap((text) => voltsOf(text, unitOfHeader(column.header.text)) ?? []),
  );

/** "0.6 Vpp", "9 V AC": what swings is no drop and no level. */
const SWINGS = /\d\s*[mµu\u03bck]?V\s*(?:pp|p-p|pk-pk|rms|ac)\b/i;
export const areSwings = ({ volts }: TableContent): boolean =>
  volts.some(({ texts }) => texts.some((text) => SWINGS.test(text)));

/** Most of them between what junctions drop, none above what a meter's diode range shows: volts, common practice, no source. */
export function areDrops(told: TableContent): boolean {
  const all = areSwings(told) ? [] : figures(told.volts);
  const whole = all.every((value) => Number.isInteger(value)) && all.some((value) => value > 80);
  const scaled = whole ? all.map((value) => value / 1000) : all;
  const usual = scaled.filter((value) => value >= 0.25 && value <= 0.95);
  const zeros = scaled.filter((value) => Math.abs(value) < 0.1);
  return (
    usual.length >= 2 && usual.length + zeros.length >= scaled.length * 0.7 && scaled.every((v) => v <= 3.3)
  );
}

/** Some of them high, as nothing on the diode range is. */
export function areLevels(told: TableContent): boolean {
  const all = areSwings(told) ? [] : figures(told.volts);
  return (
    all.length >= 2 &&
    all.some((value) => Math.abs(value) > 2.2) &&
    all.every((value) => Math.abs(value) <= 60)
  );
}
