// What a log's matrix tables say, as the diagnosis takes it: lines that never answer, that are held or joined, all of it
// silent, and single crossings, which are in the machine; a line that answers has been through its gates.

import { defined } from "../../../base/defined";
import { reviewMatrix } from "../../../compute/matrix/review";
import type { MatrixLine } from "../../../compute/matrix/shape";
import type { Board, Device } from "../../../knowledge/types";
import type { LogDocument } from "../../../log/document";
import { shift } from "../../../text/span";
import { matrixReviews, type PhaseReview, spanOfCell, spanOfLine } from "../../matrix/log-review";
import type { LocatedObservation } from "../observation";
import { crossings, LINES } from "./matrix-crossings";
import { movedLines } from "./matrix-moved";
import { allNets, headersOn, isBare, nameOf, netOf, netsAt, placed, thing } from "./matrix-places";

export function matrixObservations(
  doc: LogDocument,
  board: Board,
  deviceOf: (part: string) => Device | undefined,
): LocatedObservation[] {
  return matrixReviews(doc, board)
    .flatMap(apart)
    .flatMap((review) => {
      const moved = movedLines(review, board, doc);
      return moved.length > 0 ? moved : of(review);
    });

  function of(review: Split): LocatedObservation[] {
    return [
      ...deadLines(review, board),
      ...silent(review, board),
      ...held(review, board),
      ...joined(review, board),
      ...crossings(review, board),
      ...answeringGates(review, board, deviceOf),
    ];
  }
}

/**
 * What was tried in the machine and on the bare board, each by itself. What is dead or stuck in the machine and works on
 * the bare board is no fault of the board.
 */
function apart(phase: PhaseReview): Split[] {
  const bare = phase.tables.filter((table) => isBare({ ...phase, tables: [table] }));
  const rest = phase.tables.filter((table) => !bare.includes(table));
  if (bare.length === 0 || rest.length === 0) return [phase];
  const of = (tables: PhaseReview["tables"]): PhaseReview[] => {
    const entries = tables.flatMap((table) => table.entries);
    const review = reviewMatrix(
      phase.log.shape,
      entries.flatMap((entry) => ("recorded" in entry ? [entry.recorded] : [])),
      entries.flatMap((entry) => ("held" in entry ? [entry.held] : [])),
    );
    return review.ok ? [{ ...phase, tables, review }] : [];
  };
  const works = bare
    .flatMap(({ entries }) => entries)
    .flatMap((entry) =>
      "recorded" in entry && entry.recorded.result.state === "works" ? [entry.recorded] : [],
    );
  const boardWorks = (line: MatrixLine): boolean => works.some((cell) => cell[line.kind] === line.number);
  return [...of(bare), ...of(rest).map((one) => ({ ...one, boardWorks }))];
}

/** With what the bare board was seen to do of it. */
type Split = PhaseReview & { readonly boardWorks?: (line: MatrixLine) => boolean };

/** Where nothing answers at all the lines are innocent, and what they share is in none of their nets. */
function deadLines(phase: Split, board: Board): LocatedObservation[] {
  const { log, tables, review, cured } = phase;
  const { dead } = review;
  if (dead.nothingAnswers !== undefined) return [];
  return dead.lines.flatMap((line): LocatedObservation[] => {
    const net = netOf(log.matrix, line, board);
    const span = spanOfLine(tables, line);
    if (net === undefined || !span || cured(line)) return [];
    const [first] = tables;
    if (phase.boardWorks?.(line))
      return placed(phase, `wiring ${net}`, span, {
        kind: "sign",
        sign: "crossing-dead",
        of: `${line.kind} ${line.number}`,
        says: `${net} answers on the bare board, and not in the machine.`,
        outside: `the wiring of ${line.kind} ${line.number} in the machine`,
      });
    const outside = isBare(phase) ? undefined : `the wiring of ${line.kind} ${line.number} in the machine`;
    return [
      defined({
        key: `line ${net}`,
        what: `${line.kind} ${line.number} of the ${log.matrix.title.toLowerCase()}`,
        table: first?.table,
        span,
        refs: [],
        net,
        phase: phase.phase,
        finding: defined({ kind: "matrix-line" as const, net, outside }),
      }),
    ];
  });
}

function silent(phase: Split, board: Board): LocatedObservation[] {
  const { log, review } = phase;
  const nets = allNets(log.matrix, board);
  if (review.dead.nothingAnswers === undefined || nets.length === 0) return [];
  if (review.dead.lines.some(phase.cured)) return [];
  // Without the machine, and without a word of a link, there was nothing to answer.
  const typed = phase.tables.flatMap(({ entries }) => entries.map(({ reading }) => reading.value.typed));
  if (isBare(phase) && typed.every((word) => /^\s*(?:open|off|not closed|none?|-)\s*$/i.test(word)))
    return [];
  const title = log.matrix.title.toLowerCase();
  if (review.dead.lines.length > 0 && phase.boardWorks && review.dead.lines.some(phase.boardWorks))
    return placed(phase, `silent ${log.matrix.id}`, undefined, {
      kind: "sign",
      sign: "crossing-dead",
      refs: headersOn(nets, board),
      of: `the ${title}`,
      says: `The ${title} answers on the bare board, and not in the machine.`,
      outside: `the wiring of the ${title} in the machine`,
    });
  return placed(
    phase,
    `silent ${log.matrix.id}`,
    undefined,
    defined({
      kind: "sign" as const,
      sign: "matrix-silent" as const,
      nets,
      of: `the ${title}`,
      says: `Nothing answers in the ${title}.`,
      outside: isBare(phase) ? undefined : `the wiring of the ${title} in the machine`,
    }),
  );
}

/** Lines and crossings that answer with nothing closed. */
function held(phase: Split, board: Board): LocatedObservation[] {
  const { log, tables, review } = phase;
  const lines = review.stuck.lines.flatMap((line): LocatedObservation[] => {
    const net = netOf(log.matrix, line, board);
    if (net === undefined || phase.cured(line)) return [];
    return placed(phase, `stuck ${net}`, spanOfLine(tables, line), {
      kind: "sign",
      sign: "line-stuck",
      nets: [net],
      of: `${line.kind} ${line.number}`,
      says: `${net} answers with nothing closed.`,
      ...(isBare(phase) ? {} : { outside: `the wiring of ${line.kind} ${line.number} in the machine` }),
    });
  });
  const cells = review.stuck.cells.flatMap((cell): LocatedObservation[] => {
    if (phase.curedCell(cell)) return [];
    // Both of its lines were themselves on the bare board, where nothing held it.
    if (LINES.every((kind) => phase.boardWorks?.({ kind, number: cell[kind] })))
      return placed(phase, `wiring ${cell.row} ${cell.column}`, spanOfCell(tables, cell), {
        kind: "sign",
        sign: "wiring-apart",
        of: nameOf(phase, cell),
        says: `The crossing at ${nameOf(phase, cell)} answers with nothing closed in the machine, and not on the bare board.`,
        outside: `the ${thing(phase)} at ${nameOf(phase, cell)}`,
      });
    return placed(phase, `stuck ${cell.row} ${cell.column}`, spanOfCell(tables, cell), {
      kind: "sign",
      sign: isBare(phase) ? "lines-joined" : "crossing-stuck",
      nets: netsAt(phase, cell, board),
      of: nameOf(phase, cell),
      says: `The crossing at ${nameOf(phase, cell)} answers with nothing closed.`,
      ...(isBare(phase) ? {} : { outside: `the ${thing(phase)} at ${nameOf(phase, cell)}` }),
    });
  });
  return [...lines, ...cells];
}

function joined(phase: Split, board: Board): LocatedObservation[] {
  const { log, tables, review } = phase;
  return review.shorts.flatMap(({ kind, lines, verdict, shownBy }): LocatedObservation[] => {
    const nets = lines.flatMap((number) => netOf(log.matrix, { kind, number }, board) ?? []);
    if (
      nets.length < 2 ||
      verdict !== "out-of-limits" ||
      lines.some((number) => phase.cured({ kind, number }))
    )
      return [];
    const [at] = shownBy;
    const wiring = `the wiring of ${kind}s ${lines.join(" and ")} in the machine`;
    // Each was itself on the bare board: what joins or exchanges them is not on it.
    if (lines.every((number) => phase.boardWorks?.({ kind, number })))
      return placed(phase, `wiring ${nets.join(" ")}`, at && spanOfCell(tables, at), {
        kind: "sign",
        sign: "wiring-apart",
        of: `${kind}s ${lines.join(" and ")}`,
        says: `${nets.join(" and ")} answer each for itself on the bare board, and not in the machine.`,
        outside: wiring,
      });
    return placed(phase, `joined ${nets.join(" ")}`, at && spanOfCell(tables, at), {
      kind: "sign",
      sign: "lines-joined",
      nets,
      of: nets.join(" and "),
      says: `${nets.join(" and ")} always answer together.`,
      ...(isBare(phase) ? {} : { outside: wiring }),
    });
  });
}

/** A switch line that answers at any crossing has toggled every gate it goes through. */
function answeringGates(
  { log, phase, tables }: PhaseReview,
  board: Board,
  deviceOf: (part: string) => Device | undefined,
): LocatedObservation[] {
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
          (gate): LocatedObservation => ({
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
