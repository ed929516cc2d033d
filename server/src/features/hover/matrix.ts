import { crossingsToClear } from "../../compute/matrix/crossings";
import { type Crossing, cellName, crossingKey, type MatrixShape, shapeOf } from "../../compute/matrix/shape";
import type { Board, Matrix } from "../../knowledge/types";
import { kindOf } from "../../log/kinds";
import type { Section } from "../../log/model";
import type { CellPosition } from "../../log/position";
import { failedLines } from "../../review/matrix/failed-lines";
import { crossingOf, matrixLogs, matrixOfTable } from "../../review/matrix/from-log";
import { matrixReviews, provingOf } from "../../review/matrix/log-review";
import { joined, type Markdown, markdown, md } from "../../text/markdown";
import { sayingMarkdown } from "../shared/describe";
import { cautionLines } from "../shared/documentation";
import type { LogView } from "../view";

/** What stands at a crossing of the board's matrix: its name, its two nets, whether to keep off it, what the tests say. */
export function crossingMarkdown(view: LogView, at: CellPosition): Markdown | undefined {
  const board = view.ctx.board?.value;
  const matrix = board && matrixOfTable(at.table, board);
  if (!board || !matrix || !at.reading) return undefined;
  const shape = shapeOf(matrix);
  const cell = crossingOf(at.reading, shape);
  if (!cell) return undefined;
  return joined([...describe(matrix, cell), ...saidOf(view, board, matrix, shape, cell, at)], "\n\n");
}

function describe(matrix: Matrix, { row, column }: Crossing): readonly Markdown[] {
  const reserved = matrix.reserved.some(([r, c]) => r === row && c === column);
  return [
    markdown`**${md(matrix.cells[row - 1]?.[column - 1] || "(unnamed)")}** · ${line(markdown`row`, row, matrix.rows)}, ${line(markdown`column`, column, matrix.columns)}`,
    ...(reserved ? cautionLines(["This crossing is reserved by the board file: do not bridge it."]) : []),
  ];
}

/** A line that only a grid tells of has a number and no net. */
const line = (kind: Markdown, number: number, nets: readonly string[]): Markdown => {
  const net = nets[number - 1] ?? "";
  return net === "" ? markdown`${kind} ${number}` : markdown`${kind} ${number} (${md(net)})`;
};

/** The findings that this crossing bears out, and whether it has to be cleared in the machine. */
function saidOf(
  view: LogView,
  board: Board,
  matrix: Matrix,
  shape: MatrixShape,
  cell: Crossing,
  at: CellPosition,
): readonly Markdown[] {
  const own = matrixReviews(view.doc, board).find(
    ({ log, tables }) => log.matrix === matrix && tables.some(({ table }) => table === at.table),
  );
  const key = crossingKey(cell);
  const on = (kind: "row" | "column", number: number): boolean => cell[kind] === number;
  const here = (other: Crossing): boolean => crossingKey(other) === key;
  const { dead, stuck, shorts, phantoms } = own?.review ?? {};
  const said = [
    ...(dead?.nothingAnswers === undefined ? (dead?.lines ?? []) : []).filter(({ cells }) => cells.has(key)),
    ...(dead?.nothingAnswers === undefined ? (dead?.cells ?? []) : []).filter(here),
    ...(dead?.undecided ?? []).filter(({ line }) => on(line.kind, line.number)),
    ...(stuck?.lines ?? []).filter(({ cells }) => cells.has(key)),
    ...(stuck?.cells ?? []).filter(here),
    ...(shorts ?? []).filter(({ kind, lines }) => lines.some((number) => on(kind, number))),
    ...(phantoms?.suspects ?? []).filter(
      (diode) => here(diode) || diode.explains.some((phantom) => here(phantom.cell)),
    ),
  ].map(({ says }) => sayingMarkdown(says));
  return [...said, ...toClear(view, matrix, shape, cell)];
}

function toClear(view: LogView, matrix: Matrix, shape: MatrixShape, cell: Crossing): readonly Markdown[] {
  const evidence = failedLines(view.doc, view.ctx, matrix);
  const numbers = (kind: "row" | "column") =>
    evidence.filter(({ line }) => line.kind === kind).map(({ line }) => line.number);
  const crossings = crossingsToClear(shape, { rows: numbers("row"), columns: numbers("column") });
  if (!crossings.ok || !crossings.cells.some((other) => crossingKey(other) === crossingKey(cell))) return [];
  return [
    ...cautionLines([crossings.caution]),
    markdown`**To clear in the machine:** parts on this row and on this column have both failed (${joined([...new Set(evidence.filter(({ line }) => cell[line.kind] === line.number).map(({ says }) => md(says)))], "; ")}). Before you plug the board in, look here for a switch, wire or diode that touches a lamp or coil supply.`,
  ];
}

/** Over a matrix table's heading: how much the tests recorded so far prove. */
export function provingMarkdown(view: LogView, section: Section): Markdown | undefined {
  const board = view.ctx.board?.value;
  if (!board || !section.procedure || !kindOf(section.procedure.id).matrix) return undefined;
  const log = matrixLogs(view.doc, board).find(({ tables }) =>
    tables.some(({ table }) => table.section === section),
  );
  const plan = log && provingOf(log, board);
  if (!log || !plan) return undefined;
  const worked = plan.proven.length;
  const { shape } = log;
  return joined(
    [
      markdown`**${md(log.matrix.title)}:** ${worked} of ${worked + plan.unproven.length} rows and columns have answered. ${md(plan.sentence)}`,
      ...(shape.reserved.length > 0
        ? cautionLines([
            `Reserved by the board file, never to be bridged: ${shape.reserved.map((cell) => cellName(shape, cell)).join("; ")}.`,
          ])
        : []),
    ],
    "\n\n",
  );
}
