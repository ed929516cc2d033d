import type { LogTable } from "../../log/model";
import type { Cell } from "../../syntax/tables";

/** A blank that no editor trims or breaks a line at. */
const BLANK = "\u00a0";

export interface LocatedHint {
  /** Offset in the block. */
  readonly at: number;
  readonly label: string;
}

/**
 * Hints of one column, all of one width, so that the table stays in line: in the rows that have nothing to say, in the
 * header and in the rule below it stand blanks. Nothing where no row has anything to say.
 * @param labels what the cells of the rows say; cells that are not there keep their row as it is
 */
export function columnHints(
  table: LogTable,
  column: number,
  labels: (cell: Cell, row: number) => string,
): LocatedHint[] {
  const { header, delimiter, rows } = table.source;
  const said = rows.flatMap(({ cells }, row) => {
    const cell = cells[column];
    return cell ? [{ at: cellEnd(cell), label: labels(cell, row) }] : [];
  });
  const width = Math.max(0, ...said.map(({ label }) => label.length));
  if (width === 0) return [];
  const head = header.cells[column];
  const rule = delimiter.cells[column];
  return [
    ...(head ? [{ at: cellEnd(head), label: "" }] : []),
    ...(rule ? [{ at: rule.span.end, label: "-".repeat(width) }] : []),
    ...said,
  ].map(({ at, label }) => ({ at, label: label.padEnd(width, BLANK) }));
}

/**
 * At the cell's right edge, a blank left before the pipe: hints of a column begin one below the other, and none comes
 * between the cell's text and what is typed behind it.
 */
export const cellEnd = ({ span, outer }: Cell): number => Math.max(span.end, outer.end - 1);
