// What a log's matrix tables say, as the diagnosis takes it: lines that never answer accuse what is on them, and a
// line that answers has been through its gates.

import { defined } from "../../base/defined";
import type { Line } from "../../compute/matrix/shape";
import type { Board, Device, Matrix } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import { shift } from "../../text/span";
import { matrixReviews, type PhaseReview, spanOfLine } from "../matrix/log-review";
import type { Placed } from "./observation";

export function matrixObservations(
  doc: LogDocument,
  board: Board,
  deviceOf: (part: string) => Device | undefined,
): Placed[] {
  return matrixReviews(doc, board).flatMap((review) => [
    ...deadLines(review, board),
    ...answeringGates(review, board, deviceOf),
  ]);
}

/** Undefined for a line that only a grid has named: nobody knows what is on it. */
function netOf({ rows, columns }: Matrix, { kind, number }: Line, { nets }: Board): string | undefined {
  const name = (kind === "row" ? rows : columns)[number - 1];
  return name !== undefined && nets.has(name) ? name : undefined;
}

/** Where nothing answers at all the lines are innocent, and what they share is in none of their nets. */
function deadLines({ log, phase, tables, review, cured }: PhaseReview, board: Board): Placed[] {
  const { dead } = review;
  if (dead.nothingAnswers !== undefined) return [];
  return dead.lines.flatMap((line): Placed[] => {
    const net = netOf(log.matrix, line, board);
    const span = spanOfLine(tables, line);
    if (net === undefined || !span || cured(line)) return [];
    const [first] = tables;
    return [
      defined({
        key: `line ${net}`,
        what: `${line.kind} ${line.number} of the ${log.matrix.title.toLowerCase()}`,
        table: first?.table,
        span,
        refs: [],
        net,
        phase,
        finding: { kind: "matrix-line", net },
      }),
    ];
  });
}

/** A switch line that answers at any crossing has toggled every gate it goes through. */
function answeringGates(
  { log, phase, tables }: PhaseReview,
  board: Board,
  deviceOf: (part: string) => Device | undefined,
): Placed[] {
  const { matrix } = log;
  const [first] = tables;
  if (matrix.kind !== "switch" || !first) return [];
  const nets = new Set<string>();
  for (const { entries } of tables) {
    for (const entry of entries) {
      if (!("recorded" in entry) || entry.recorded.result.state !== "works") continue;
      const { row, column } = entry.recorded;
      for (const line of [
        { kind: "row", number: row },
        { kind: "column", number: column },
      ] as const) {
        const net = netOf(matrix, line, board);
        if (net !== undefined) nets.add(net);
      }
    }
  }
  const span = shift(first.table.span, first.start);
  return [...nets].flatMap((name) =>
    (board.nets.get(name)?.pins ?? []).flatMap(({ ref, pin }) => {
      const device = deviceOf(board.parts.get(ref)?.device ?? "");
      return (device?.gates ?? [])
        .filter(({ inputs, outputs }) => inputs.includes(pin) || outputs.includes(pin))
        .map(
          (gate): Placed => ({
            key: `gate ${ref} ${gate.name}`.toUpperCase(),
            what: `${ref} gate ${gate.name}`,
            span,
            refs: [ref.toUpperCase()],
            phase,
            agrees: { ref, gate: gate.name },
          }),
        );
    }),
  );
}
