// Tables that the board file lays out: one row a rail, a grid with one cell a crossing.
import type { Board, Matrix, Procedure } from "../../knowledge/types";
import type { Section } from "../../log/model";
import { encodeCell } from "../../syntax/tables";
import { md } from "../describe";
import type { Completion } from "../types";
import type { LogView } from "../view";
import { literal } from "./literal";
import { ownLine } from "./own-line";

/** Characters of a reading as it is mostly typed: "5.02", "dead". */
const TYPED = 5;

export interface Layout {
  readonly name: string;
  readonly about: string;
  readonly header: readonly string[];
  /** Undefined stands for a cell to be filled in. */
  readonly rows: readonly (readonly (string | undefined)[])[];
}

/** The table of the section's own procedure, laid out for this board and still empty. */
export function boardTables(
  view: LogView,
  section: Section,
  lineStart: number,
  offset: number,
): Completion[] {
  const board = view.ctx.board?.value;
  const line = ownLine(view.doc.text, lineStart, offset);
  if (!board || !section.procedure || !line) return [];
  return layouts(section.procedure, board).map((layout): Completion => {
    const { plain, snippet } = write(layout);
    return {
      label: `${layout.name} table`,
      kind: "table",
      description: `${layout.rows.length} rows`,
      documentation: md(layout.about),
      span: line.span,
      newText: plain.join(line.eol) + line.eol,
      snippet: snippet.join(line.eol) + line.eol,
      filterText: `${line.lead}${layout.name}`,
    };
  });
}

/** The tables of a procedure as this board lays them out; none where the board file says nothing of them. */
export function layouts(procedure: Procedure, board: Board): Layout[] {
  if (procedure.id === "supply-rails" || procedure.id === "resistance-to-ground")
    return railLayout(procedure, board);
  const kind = { "switch-matrix": "switch", "lamp-matrix": "lamp" }[procedure.id];
  return [...board.matrices.values()].filter((matrix) => matrix.kind === kind).map(gridLayout);
}

function railLayout(procedure: Procedure, board: Board): Layout[] {
  if (board.rails.size === 0) return [];
  const columns = procedure.columns.filter(
    ({ role, required, measure }) =>
      role === "rail" || role === "note" || (role === "reading" && (required || measure === "ripple")),
  );
  const rows = [...board.rails.values()].map((rail) =>
    columns.map(({ role }) =>
      role === "rail" ? rail.name : role === "note" ? (rail.testPoint ?? "") : undefined,
    ),
  );
  const header = columns.map((column) => column.headers[0] ?? "");
  return [{ name: "Rails", about: `${procedure.title} of ${board.title}, one row a rail.`, header, rows }];
}

/** A reserved crossing is marked as not tried, so that nobody fills it in by the way. */
function gridLayout(matrix: Matrix): Layout {
  const reserved = new Set(matrix.reserved.map(([row, column]) => `${row} ${column}`));
  return {
    name: matrix.title,
    about: `${matrix.title}, rows by columns. Reserved crossings are marked with a dash: leave them alone.`,
    header: ["Row \\ Col", ...matrix.columns.map((_, c) => String(c + 1))],
    rows: matrix.rows.map((_, r) => [
      String(r + 1),
      ...matrix.columns.map((__, c) => (reserved.has(`${r + 1} ${c + 1}`) ? "-" : undefined)),
    ]),
  };
}

/** Lines without line ends; the second form has a stop in every cell to be filled in. */
export function write({ header, rows }: Layout): { plain: string[]; snippet: string[] } {
  const cells = [header, ...rows].map((row) => row.map((cell) => encodeCell(cell ?? "")));
  const widths = header.map((_, i) => Math.max(3, ...cells.map((row) => row[i]?.length ?? 0)));
  const line = (row: readonly string[]) => `| ${row.map((c, i) => c.padEnd(widths[i] ?? 0)).join(" | ")} |`;
  const [head = "", ...body] = cells.map(line);
  const rule = `|${widths.map((w) => "-".repeat(w + 2)).join("|")}|`;
  let stop = 0;
  const withStops = rows.map((row, r) => {
    const shown = row.map((cell, i) => {
      const padded = (cells[r + 1]?.[i] ?? "").padEnd(widths[i] ?? 0);
      if (cell !== undefined) return literal(padded);
      stop += 1;
      // Blanks that are typed over leave the columns in line.
      return `\${${stop}:${padded.slice(0, TYPED)}}${padded.slice(TYPED)}`;
    });
    return `| ${shown.join(" | ")} |`;
  });
  return { plain: [head, rule, ...body], snippet: [literal(head), rule, ...withStops] };
}
