// Which rows and columns of a matrix have lost a part: by a reading outside its limits on the line itself, or by a
// replacement, narrowed to the lines that failed otherwise.

import { memo } from "../../base/memo";
import type { MatrixLine } from "../../compute/matrix/shape";
import { type Judgement, judgePieces } from "../../judge";
import { contextAt, type LogContext } from "../../judge/context";
import { inJudgedBlocks } from "../../judge/in-blocks";
import type { Board, Matrix } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import type { Reading } from "../../log/model";
import { placeIn, workRows } from "../../log/timeline";
import { type Span, shift } from "../../text/span";
import { matrixReviews } from "./log-review";

/** What says that a part on a line has failed. The span is of the document. */
export interface LineEvidence {
  readonly line: MatrixLine;
  readonly span: Span;
  readonly says: string;
}

/** Header pins and test points are on every line and fail by their joints, not as parts. */
const JOINTS_ONLY = /^(?:J|P|X|CN|TP)\d/i;

/** In the order of the log; a line may have several. */
export function failedLines(doc: LogDocument, ctx: LogContext, matrix: Matrix): readonly LineEvidence[] {
  const board = ctx.board?.value;
  if (!board) return [];
  const measured = measuredFaults(doc, ctx, matrix);
  const dead = matrixReviews(doc, board)
    .filter(({ log }) => log.matrix === matrix)
    .flatMap(({ review }) => review.dead.lines.filter(({ needed }) => needed));
  const known = [...measured.map(({ line }) => line), ...dead];
  return [...measured, ...replacedOn(doc, board, matrix, known)];
}

/** Readings that are out of limits on a net. */
const disprovedIn = memo((judgements: ReadonlyMap<Reading, Judgement>): readonly Judgement[] =>
  [...judgements.values()].filter(
    ({ verdict, place }) => verdict === "out-of-limits" && place?.net && !JOINTS_ONLY.test(place.ref),
  ),
);

/** The same of a block, each with the offset in it that its spans count from. */
const disprovedInBlocks = inJudgedBlocks((block, whole) => {
  const all = judgePieces(block, contextAt(block, whole)).flatMap(({ piece, judgements }) =>
    disprovedIn(judgements).map(({ reading, place }) => ({ from: piece.start, reading, place })),
  );
  return all.length === 0 ? undefined : all;
});

function measuredFaults(doc: LogDocument, ctx: LogContext, matrix: Matrix): readonly LineEvidence[] {
  const found: LineEvidence[] = [];
  for (const { start, found: disproved } of disprovedInBlocks(doc, ctx)) {
    for (const { from, reading, place } of disproved) {
      const line = place?.net && lineOfNet(matrix, place.net.name);
      if (!line || !place) continue;
      const pin = reading.subject.pin ? ` pin ${reading.subject.pin.text}` : "";
      found.push({
        line,
        span: shift(reading.cell.span, start + from),
        says: `${place.ref}${pin} reads ${reading.value.typed}`,
      });
    }
  }
  return found;
}

function replacedOn(
  doc: LogDocument,
  board: Board,
  matrix: Matrix,
  known: readonly MatrixLine[],
): readonly LineEvidence[] {
  const found: LineEvidence[] = [];
  for (const row of workRows(doc)) {
    const { ref, replaced } = row;
    if (!ref || !replaced || JOINTS_ONLY.test(ref.text)) continue;
    const all = linesOfPart(board, matrix, ref.text.toUpperCase());
    const narrowed = all.filter((line) =>
      known.some(({ kind, number }) => kind === line.kind && number === line.number),
    );
    // What was replaced on suspicion beside a line that is known to have failed accuses no other line.
    const open = all.filter(({ kind }) => !known.some((line) => line.kind === kind));
    for (const line of narrowed.length > 0 ? narrowed : open)
      found.push({ line, span: placeIn(row, ref), says: `${ref.text} was replaced` });
  }
  return found;
}

function lineOfNet({ rows, columns }: Matrix, net: string): MatrixLine | undefined {
  const row = rows.indexOf(net);
  if (row >= 0) return { kind: "row", number: row + 1 };
  const column = columns.indexOf(net);
  return column < 0 ? undefined : { kind: "column", number: column + 1 };
}

const linesOfPart = (board: Board, matrix: Matrix, ref: string): readonly MatrixLine[] =>
  [...matrix.rows, ...matrix.columns].flatMap((name) =>
    board.nets.get(name)?.pins.some((pin) => pin.ref.toUpperCase() === ref)
      ? (lineOfNet(matrix, name) ?? [])
      : [],
  );
