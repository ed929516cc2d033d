// The lines of one table with its columns in line. Plain texts in, plain lines out; a cell's own text is never changed.
import type { Align } from "../../syntax/tables";
import { displayWidth } from "../../text/display-width";
import { beforePoint } from "./typed-number";

/** How the cells of one column are lined up. */
export interface ColumnStyle {
  readonly align: Align;
  /** Numbers in it are lined up by their decimal point. */
  readonly numeric: boolean;
}

export interface TableText {
  /** Cells as they are typed, pipes in them escaped. */
  readonly header: readonly string[];
  /** Fewer cells than the header are filled up with empty ones; more are kept, out of line. */
  readonly rows: readonly (readonly string[])[];
  /** As many as the header's cells. */
  readonly columns: readonly ColumnStyle[];
  /** The delimiter row is written `| --- |` and not `|-----|`. */
  readonly spaced?: boolean;
}

/** The least a column takes: as wide as a delimiter with both colons. */
const NARROWEST = 3;
/**
 * A longer cell sticks out of its column instead of making every row as long: editors wrap Markdown, and a table
 * padded beyond the window's edge is harder to read than one row out of line.
 */
export const WIDEST_CELL = 80;

interface Measured {
  readonly width: number;
  /** Width of what stands before the decimal point in the widest number. */
  readonly before: number;
  /** Width of the numbers when lined up. */
  readonly numbers: number;
}

/** Header, delimiter row and rows, without line ends. */
export function tableLines(table: TableText): string[] {
  const measured = table.columns.map((style, i) => measure(table, style, i));
  const line = (cells: readonly string[], isHeader: boolean): string => {
    const padded = table.columns.map((style, i) =>
      isHeader
        ? pad(cells[i] ?? "", style.align, measured[i]!.width)
        : place(cells[i] ?? "", style, measured[i]!),
    );
    return `| ${[...padded, ...cells.slice(table.columns.length)].join(" | ")} |`;
  };
  const rule = table.columns.map(({ align }, i) =>
    delimiter(align, measured[i]!.width, table.spaced === true),
  );
  return [line(table.header, true), `|${rule.join("|")}|`, ...table.rows.map((cells) => line(cells, false))];
}

function measure({ header, rows }: TableText, { numeric }: ColumnStyle, i: number): Measured {
  let width = Math.max(NARROWEST, fitting(displayWidth(header[i] ?? "")));
  let before = 0;
  let after = 0;
  for (const row of rows) {
    const text = row[i] ?? "";
    const point = numeric ? beforePoint(text) : undefined;
    const whole = fitting(displayWidth(text));
    if (point === undefined) width = Math.max(width, whole);
    else if (whole > 0) {
      const lead = displayWidth(text.slice(0, point));
      before = Math.max(before, lead);
      after = Math.max(after, whole - lead);
    }
  }
  return { width: Math.max(width, before + after), before, numbers: before + after };
}

const fitting = (width: number): number => (width > WIDEST_CELL ? 0 : width);

function place(text: string, { align, numeric }: ColumnStyle, { width, before, numbers }: Measured): string {
  const point = numeric ? beforePoint(text) : undefined;
  if (point === undefined) return pad(text, align, width);
  const inLine = " ".repeat(Math.max(0, before - displayWidth(text.slice(0, point)))) + text;
  return pad(pad(inLine, "left", numbers), align, width);
}

function pad(text: string, align: Align, width: number): string {
  const room = Math.max(0, width - displayWidth(text));
  const left = align === "right" ? room : align === "center" ? Math.floor(room / 2) : 0;
  return " ".repeat(left) + text + " ".repeat(room - left);
}

function delimiter(align: Align, width: number, spaced: boolean): string {
  const left = align === "left" || align === "center" ? ":" : "";
  const right = align === "right" || align === "center" ? ":" : "";
  const dashes = "-".repeat(width + (spaced ? 0 : 2) - left.length - right.length);
  return spaced ? ` ${left}${dashes}${right} ` : left + dashes + right;
}
