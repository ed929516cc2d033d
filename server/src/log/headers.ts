import type { ColumnRole, ColumnSpec, Procedure } from "../knowledge/types";
import { dimensionOfUnit, splitHeader } from "../quantity/units";
import type { Row } from "../syntax/tables";
import type { TableColumn } from "./model";

/** Header words as compared: lower case, without a unit, anything in brackets, dots and doubled blanks. */
export function headerWord(text: string): string {
  return splitHeader(text)
    .word.replace(/[([][^)\]]*[)\]]/g, " ")
    .replace(/[*_`.:#]/g, " ")
    .replace(/\s+/g, " ")
    .trim()
    .toLowerCase();
}

export interface ReadHeader {
  readonly shape: "long" | "wide";
  readonly columns: readonly TableColumn[];
}

/** The spec whose header words hold this word, by procedure; the procedure's own order breaks ties. */
export function specFor(procedure: Procedure, word: string): ColumnSpec | undefined {
  return procedure.columns.find((spec) => spec.headers.some((header) => headerWord(header) === word));
}

/** Where a header is nothing but a unit ("mV"), the first reading not yet named that is measured in it. */
function specOfUnit(
  procedure: Procedure,
  text: string,
  taken: ReadonlySet<ColumnSpec>,
): ColumnSpec | undefined {
  const dimension = text === "" ? undefined : dimensionOfUnit(text);
  return procedure.columns.find(
    (spec) => spec.role === "reading" && spec.quantity === dimension && !taken.has(spec),
  );
}

/**
 * The role of each column. A table is wide where the procedure has a wide form, its first header names the
 * wide form's rows (or is empty, as over a matrix), and no other header is that of a measured column.
 */
export function readHeader(procedure: Procedure, header: Row): ReadHeader {
  const taken = new Set<ColumnSpec>();
  const columns = header.cells.map((cell): TableColumn => {
    const named = specFor(procedure, headerWord(cell.text));
    const spec = named ?? specOfUnit(procedure, cell.text, taken);
    const unit = named ? splitHeader(cell.text).unit : spec ? cell.text : splitHeader(cell.text).unit;
    const base = unit === undefined ? { header: cell } : { header: cell, unit };
    // A second column under the same word ("Reading", "Reading") is a second reading of the same kind;
    // a second Ref or Pin column is not, and stays unnamed.
    if (!spec || (taken.has(spec) && !isMeasured(spec.role))) return base;
    taken.add(spec);
    return { ...base, spec };
  });
  return isWide(procedure, columns) ? { shape: "wide", columns } : { shape: "long", columns };
}

function isWide(procedure: Procedure, columns: readonly TableColumn[]): boolean {
  const wide = procedure.wide;
  const first = columns[0];
  if (!wide || !first || columns.length < 2) return false;
  const others = columns.slice(1);
  if (others.some((c) => c.spec?.role === wide.columns || (c.spec && isMeasured(c.spec.role)))) return false;
  if (others.every((c) => c.spec)) return false;
  return first.spec?.role === wide.rows || isCorner(first.header.text);
}

/** The corner of a grid: empty, or two words with a stroke between them. */
const isCorner = (text: string): boolean => text === "" || /^[\w ]+\s*[\\/]\s*[\w ]+$/.test(text);

export const isMeasured = (role: ColumnRole): boolean =>
  role === "reading" || role === "state" || role === "result" || role === "check";
