// A log's switch and lamp matrix tables as the computations here take them, with the places the results came from.

import { memo } from "../../base/memo";
import type { HeldTogether, Recorded } from "../../compute/matrix/results";
import { type Crossing, isInside, type MatrixShape, shapeOf } from "../../compute/matrix/shape";
import type { Board, Matrix } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import { inBlocksBy } from "../../log/in-blocks";
import type { LogTable, Reading } from "../../log/model";
import { leadingTo } from "../../log/said-above";
import { momentIn, timelineOf } from "../../log/timeline";
import { type Span, shift } from "../../text/span";
import { cellNamed, lineNamed, othersIn, pairsIn, readResult, seenIn } from "./from-log-words";

/** One result in a table: of one crossing, or of several held closed at once. Spans are of the block. */
export type MatrixEntry = {
  readonly reading: Reading;
  readonly table: LogTable;
} & ({ readonly recorded: Recorded } | { readonly held: HeldTogether });

/** A row, column or crossing that the matrix does not have. The span is of the block. */
export interface Stranger {
  readonly span: Span;
  readonly message: string;
}

export interface TableResults {
  readonly entries: readonly MatrixEntry[];
  readonly strangers: readonly Stranger[];
  /** Crossings with a row of their own in a long table and no result yet. */
  readonly waiting: readonly Crossing[];
}

/** A matrix table of the log with what it recorded, crossing by crossing. */
export interface LocatedResults extends TableResults {
  readonly table: LogTable;
  /** Offset of the table's block in the document. */
  readonly start: number;
  /** The words that lead over to it, between its heading or the table before it and itself. */
  readonly said: string;
  /** How many repairs came before: 0 for results taken before any work was done. */
  readonly phase: number;
}

/** All that a log says of one matrix of its board. */
export interface MatrixLog {
  readonly matrix: Matrix;
  readonly shape: MatrixShape;
  /** In the order of the log; at least one. */
  readonly tables: readonly LocatedResults[];
  /** Designators of parts replaced, with the last repair it was done in, from 1. */
  readonly replaced: ReadonlyMap<string, number>;
}

/**
 * The board's matrix a table is of: the only one of the procedure's kind, else the one whose title or id the
 * heading names. Undefined where that does not decide it: results are never put to a matrix by guessing.
 */
export function matrixOfTable(table: LogTable, board: Board): Matrix | undefined {
  const all = [...board.matrices.values()].filter((matrix) => matrix.kind === table.kind.matrix);
  if (all.length < 2) return all[0];
  const { heading } = table.section;
  const words = heading?.text.toLowerCase() ?? "";
  const named = all.filter(
    ({ id, title }) => words.includes(title.toLowerCase()) || words.includes(id.toLowerCase()),
  );
  // The longer title wins where one holds the other: "Lamps" and "Lamps, upper side".
  return named.sort((a, b) => b.title.length - a.title.length)[0];
}

/** Nothing is pressed meanwhile, by the words over a table. */
const AT_REST =
  /\b(?:nothing (?:is |was )?(?:pressed|closed|touched|held)|(?:no|without any) (?:keys?|switch(?:es)?|buttons?) (?:is |are |was |were )?(?:pressed|closed|held)|all (?:switches |keys )?(?:open|at rest)|hands off|untouched)\b/i;

/** Of a matrix at rest no more answers; where more is told to work, the word means that it is in order. */
const MOST_AT_REST = 0.5;

/** With nothing closed a crossing that answers is stuck, and one that does not says nothing. */
function atRest(results: TableResults): TableResults {
  const { entries } = results;
  const works = entries.filter((entry) => "recorded" in entry && entry.recorded.result.state === "works");
  if (works.length > MOST_AT_REST * entries.length) return results;
  return {
    ...results,
    entries: entries.flatMap((entry): MatrixEntry[] => {
      if (!("recorded" in entry)) return [];
      const { state } = entry.recorded.result;
      if (state === "dead") return [];
      return state === "works"
        ? [{ ...entry, recorded: { ...entry.recorded, result: { state: "stuck" } } }]
        : [entry];
    }),
  };
}

/** Every matrix of the board that has a table in the log. */
export const matrixLogs = memo((doc: LogDocument, board: Board): readonly MatrixLog[] => {
  const byMatrix = new Map<Matrix, LocatedResults[]>();
  const timeline = timelineOf(doc);
  for (const { start, found } of resultsInBlocks(doc, board)) {
    for (const { matrix, ...results } of found) {
      const phase = momentIn(timeline, results.table).repairs;
      const tables = byMatrix.get(matrix) ?? [];
      byMatrix.set(matrix, tables);
      tables.push({ ...results, start, phase });
    }
  }
  return [...byMatrix].map(
    ([matrix, tables]): MatrixLog => ({
      matrix,
      shape: shapeOf(matrix),
      tables,
      replaced: timeline.replaced,
    }),
  );
});

const resultsInBlocks = inBlocksBy((block, board: Board) => {
  const all = block.tables.flatMap((table) => {
    const matrix = matrixOfTable(table, board);
    if (!matrix) return [];
    const said = leadingTo(block, table);
    const results = readTable(table, shapeOf(matrix));
    const isRest = AT_REST.test(`${table.section.heading?.text ?? ""}; ${said}`);
    return [{ matrix, table, said, ...(isRest ? atRest(results) : results) }];
  });
  return all.length === 0 ? undefined : all;
});

/** What one table says; read once for a table and like matrices. */
const readTable = memo((table: LogTable, shape: MatrixShape): TableResults => {
  const entries: MatrixEntry[] = [];
  const strangers = new Map<number, Stranger>();
  const waiting: Crossing[] = [];
  for (const reading of table.readings) {
    const at = whereOf(reading, shape);
    if ("message" in at) {
      strangers.set(at.span.start, at);
      continue;
    }
    const [cell] = at.cells;
    if (!cell) continue;
    if (reading.value.kind === "empty") {
      if (table.shape === "long" && at.cells.length === 1) waiting.push(cell);
      continue;
    }
    if (at.cells.length === 1) {
      const held = heldBeside(reading, cell, shape);
      if (held) {
        entries.push({ reading, table, held });
        continue;
      }
      const result = readResult(reading.value, shape, cell, reading.subject.note?.text);
      if (result) entries.push({ reading, table, recorded: { ...cell, result } });
      continue;
    }
    const listed = seenIn(reading.value.typed, shape);
    if (listed.length > 0) {
      entries.push({ reading, table, held: { closed: at.cells, seen: listed } });
      continue;
    }
    const more = othersIn(reading.value.typed, shape);
    const told = more.length > 0 || (reading.value.kind === "result" && reading.value.ok === true);
    if (told) entries.push({ reading, table, held: { closed: at.cells, seen: [...at.cells, ...more] } });
  }
  return { entries, strangers: [...strangers.values()], waiting };
});

const HELD = /\bwith\b(?=.*\b(?:closed|held|down|pressed|made|in)\b)/i;

/** "ghost, with 2,3 and 2,5 and 1,3 closed": what was held, and the crossing that came with it or did not. */
function heldBeside(
  { value, subject }: Reading,
  cell: Crossing,
  shape: MatrixShape,
): HeldTogether | undefined {
  const note = subject.note?.text ?? "";
  const from = HELD.exec(note)?.index;
  const closed = from === undefined ? [] : pairsIn(note.slice(from));
  const isOk = value.kind === "result" && value.ok === true;
  if (closed.length < LEAST_HELD || !closed.every((one) => isInside(shape, one))) return undefined;
  // One that is held by itself is told with its own result.
  if (closed.some((one) => one.row === cell.row && one.column === cell.column)) return undefined;
  return { closed, seen: isOk ? closed : [...closed, cell] };
}

/** Fewer held at once show no way round. */
const LEAST_HELD = 2;

/** The crossing of one result: for a feature that has a reading in hand. */
export function crossingOf(reading: Reading, shape: MatrixShape): Crossing | undefined {
  const at = whereOf(reading, shape);
  return "cells" in at && at.cells.length === 1 ? at.cells[0] : undefined;
}

/** Which crossings a result is of: none where the row does not say, several where they were held at once. */
function whereOf(reading: Reading, shape: MatrixShape): { readonly cells: readonly Crossing[] } | Stranger {
  const turned = reading.table.shape === "wide" && isTurned(reading.table);
  const { cell } = reading.subject;
  const row = turned ? reading.subject.column : reading.subject.row;
  const column = turned ? reading.subject.row : reading.subject.column;
  for (const [kind, typed] of [
    ["row", row],
    ["column", column],
  ] as const) {
    if (typed && lineNamed(typed.text, kind, shape) === undefined) {
      const count = kind === "row" ? shape.rows : shape.columns;
      return {
        span: typed.span,
        message: `The matrix has no ${kind} "${typed.text}": its ${kind}s are 1 to ${count}, or their nets by name. Results there are not used.`,
      };
    }
  }
  if (row && column) {
    return {
      cells: [{ row: lineNamed(row.text, "row", shape)!, column: lineNamed(column.text, "column", shape)! }],
    };
  }
  if (!cell) return { cells: [] };
  const pieces = cell.text.split(/\s*[+&]\s*|\s+and\s+|,\s+(?=\p{L})/u);
  const cells = pieces.map((piece) => cellNamed(piece, shape) ?? pairsIn(piece)[0]);
  const missing = cells.findIndex((found) => !found || !isInside(shape, found));
  if (missing >= 0) {
    return {
      span: cell.span,
      message: `The matrix has no crossing "${pieces[missing]}", or more than one: name it by row and column, as 3,2. Its result is not used.`,
    };
  }
  return { cells: cells as readonly Crossing[] };
}

/** A grid whose first header names the columns has its rows across. */
const isTurned = (table: LogTable): boolean =>
  /^\s*(?:col|strobe)/i.test(table.columns[0]?.header.text ?? "");

/** A block span of a placed table in the document. */
export const inDocument = ({ start }: LocatedResults, at: Span): Span => shift(at, start);
