// Texts about things that only board files define.
import type { LogContext } from "../../../judge/context";
import type { Board, Device, Matrix, Part, TestCode } from "../../../knowledge/types";
import { columnRule, joined, type Markdown, markdown, md, trimmedMarkdown } from "../../../text/markdown";
import { byRef, partTitle } from "../../shared/describe";

/** A circuit with its parts and the symptoms that lead to it. */
export function circuitDocumentation(board: Board, id: string, ctx: LogContext): Markdown | undefined {
  const circuit = board.circuits.get(id);
  if (!circuit) return undefined;
  const parts = [...board.parts.values()]
    .filter((part) => part.circuit === id)
    .sort((a, b) => byRef(a.ref, b.ref))
    .map((part) => markdown`- **${md(part.ref)}** ${md(partTitle(part, deviceOf(part, ctx)))}`);
  const symptoms = [...board.symptoms.values()].filter(({ circuits }) => circuits.includes(id));
  return joined(
    [
      markdown`**${md(circuit.title)}**`,
      ...(circuit.note === undefined ? [] : [md(circuit.note)]),
      ...(symptoms.length > 0
        ? [
            markdown`Symptoms: ${joined(
              symptoms.map(({ title }) => md(title)),
              ", ",
            )}`,
          ]
        : []),
      ...(parts.length > 0 ? [joined(parts, "\n")] : [markdown`No part names this circuit.`]),
    ],
    "\n\n",
  );
}

/** A code of a test program with the parts and circuits that it points to, in its own order: the likeliest first. */
export function codeDocumentation(
  { code, title, parts, circuits, pass, note }: TestCode,
  board: Board,
  ctx: LogContext,
): Markdown {
  const found = parts.map((ref) => {
    const part = board.parts.get(ref);
    return markdown`- **${md(ref)}** ${part ? md(partTitle(part, deviceOf(part, ctx))) : markdown`is not among the parts`}`;
  });
  const titles = circuits.map((id) => md(board.circuits.get(id)?.title ?? id));
  const points = [
    ...(found.length > 0 ? [joined(found, "\n")] : []),
    ...(titles.length > 0 ? [markdown`Circuits: ${joined(titles, ", ")}`] : []),
  ];
  return joined(
    [
      markdown`**${md(code)}** ${md(title)}`,
      ...(pass
        ? [markdown`The program came to its end. It disproves nothing that it does not reach.`]
        : points.length > 0
          ? [markdown`Points to these, or to what feeds or selects them:`, ...points]
          : [markdown`Points to no part.`]),
      ...(note === undefined ? [] : [md(note)]),
    ],
    "\n\n",
  );
}

const deviceOf = (part: Part, { library }: LogContext): Device | undefined =>
  part.device === undefined ? undefined : library.device(part.device)?.device;

/** The whole matrix as a table, nets along its edges. */
export function matrixDocumentation(matrix: Matrix, board: Board): Markdown {
  const { title, kind, rows, columns, cells, circuit } = matrix;
  const body = rows.map((net, row) => {
    const names = columns.map((_, column) => cellName(matrix, row, column));
    return markdown`| **${md(net)}** | ${joined(names, " | ")} |`;
  });
  const where = circuit === undefined ? undefined : (board.circuits.get(circuit)?.title ?? circuit);
  return joined(
    [
      markdown`**${md(title)}** · ${md(kind)} matrix, ${rows.length} rows by ${columns.length} columns`,
      ...(where === undefined ? [] : [markdown`Circuit: ${md(where)}`]),
      ...(cells.length > 0
        ? [
            joined(
              [markdown`| | ${joined(columns.map(md), " | ")} |`, columnRule(columns.length + 1), ...body],
              "\n",
            ),
          ]
        : []),
    ],
    "\n\n",
  );
}

function cellName(matrix: Matrix, row: number, column: number): Markdown {
  const name = md(matrix.cells[row]?.[column] ?? "");
  return isReserved(matrix, row, column) ? trimmedMarkdown(markdown`${name} (reserved)`) : name;
}

const isReserved = ({ reserved }: Matrix, row: number, column: number): boolean =>
  reserved.some(([r, c]) => r === row + 1 && c === column + 1);

/** One crossing: its row and column with their nets. Positions count from 0. */
export function cellDocumentation(matrix: Matrix, row: number, column: number): Markdown {
  const line = (word: Markdown, at: number, net: string | undefined) =>
    markdown`${word} ${at + 1}${net === undefined ? "" : markdown`, net ${md(net)}`}`;
  return joined(
    [
      markdown`**${cellName(matrix, row, column) || markdown`Nothing here`}** · ${md(matrix.title)}`,
      markdown`${line(markdown`Row`, row, matrix.rows[row])}  \n${line(markdown`Column`, column, matrix.columns[column])}`,
      ...(isReserved(matrix, row, column) ? [markdown`Reserved: must not be exercised.`] : []),
    ],
    "\n\n",
  );
}
