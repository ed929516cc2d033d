// Texts about things that only board files define.
import type { LogContext } from "../../../judge/context";
import type { Board, Device, Matrix, Part, TestCode } from "../../../knowledge/types";
import { md } from "../../../text/markdown";
import { byRef, partTitle } from "../../shared/describe";

/** A circuit with its parts and the symptoms that lead to it. */
export function circuitDocumentation(board: Board, id: string, ctx: LogContext): string | undefined {
  const circuit = board.circuits.get(id);
  if (!circuit) return undefined;
  const parts = [...board.parts.values()]
    .filter((part) => part.circuit === id)
    .sort((a, b) => byRef(a.ref, b.ref))
    .map((part) => `- **${md(part.ref)}** ${md(partTitle(part, deviceOf(part, ctx)))}`);
  const symptoms = [...board.symptoms.values()].filter(({ circuits }) => circuits.includes(id));
  return [
    `**${md(circuit.title)}**`,
    ...(circuit.note === undefined ? [] : [md(circuit.note)]),
    ...(symptoms.length > 0 ? [`Symptoms: ${symptoms.map(({ title }) => md(title)).join(", ")}`] : []),
    ...(parts.length > 0 ? [parts.join("\n")] : ["No part names this circuit."]),
  ].join("\n\n");
}

/** A code of a test program with the parts and circuits that it points to, in its own order: the likeliest first. */
export function codeDocumentation(
  { code, title, parts, circuits, pass, note }: TestCode,
  board: Board,
  ctx: LogContext,
): string {
  const found = parts.map((ref) => {
    const part = board.parts.get(ref);
    return `- **${md(ref)}** ${part ? md(partTitle(part, deviceOf(part, ctx))) : "is not among the parts"}`;
  });
  const titles = circuits.map((id) => md(board.circuits.get(id)?.title ?? id));
  const points = [
    ...(found.length > 0 ? [found.join("\n")] : []),
    ...(titles.length > 0 ? [`Circuits: ${titles.join(", ")}`] : []),
  ];
  return [
    `**${md(code)}** ${md(title)}`,
    ...(pass
      ? ["The program came to its end. It disproves nothing that it does not reach."]
      : points.length > 0
        ? ["Points to these, or to what feeds or selects them:", ...points]
        : ["Points to no part."]),
    ...(note === undefined ? [] : [md(note)]),
  ].join("\n\n");
}

const deviceOf = (part: Part, { library }: LogContext): Device | undefined =>
  part.device === undefined ? undefined : library.device(part.device)?.device;

/** The whole matrix as a table, nets along its edges. */
export function matrixDocumentation(matrix: Matrix, board: Board): string {
  const { title, kind, rows, columns, cells, circuit } = matrix;
  const body = rows.map((net, row) => {
    const names = columns.map((_, column) => cellName(matrix, row, column));
    return `| **${md(net)}** | ${names.join(" | ")} |`;
  });
  const where = circuit === undefined ? undefined : (board.circuits.get(circuit)?.title ?? circuit);
  return [
    `**${md(title)}** · ${kind} matrix, ${rows.length} rows by ${columns.length} columns`,
    ...(where === undefined ? [] : [`Circuit: ${md(where)}`]),
    ...(cells.length > 0
      ? [
          [`| | ${columns.map(md).join(" | ")} |`, `|---${"|---".repeat(columns.length)}|`, ...body].join(
            "\n",
          ),
        ]
      : []),
  ].join("\n\n");
}

function cellName(matrix: Matrix, row: number, column: number): string {
  const name = md(matrix.cells[row]?.[column] ?? "");
  return isReserved(matrix, row, column) ? `${name} (reserved)`.trim() : name;
}

const isReserved = ({ reserved }: Matrix, row: number, column: number): boolean =>
  reserved.some(([r, c]) => r === row + 1 && c === column + 1);

/** One crossing: its row and column with their nets. Positions count from 0. */
export function cellDocumentation(matrix: Matrix, row: number, column: number): string {
  const line = (word: string, at: number, net: string | undefined) =>
    `${word} ${at + 1}${net === undefined ? "" : `, net ${md(net)}`}`;
  return [
    `**${cellName(matrix, row, column) || "Nothing here"}** · ${md(matrix.title)}`,
    `${line("Row", row, matrix.rows[row])}  \n${line("Column", column, matrix.columns[column])}`,
    ...(isReserved(matrix, row, column) ? ["Reserved: must not be exercised."] : []),
  ].join("\n\n");
}
