// Where a hover has a picture, and which.

import { shapeOf } from "../../compute/matrix/shape";
import type { LogTable, Reading, Section } from "../../log/model";
import { chipPicture } from "../../pictures/chip";
import { crossingOf, type MatrixLog, matrixLogs, matrixOfTable } from "../../review/matrix/from-log";
import type { HoverPicture } from "../types";
import type { LogView } from "../view";
import { chipInput, matrixDrawing } from "./drawings";

/** The chip with the verdicts of this log. */
export const chipPictureFor = (view: LogView, ref: string, at: number): HoverPicture => ({
  at,
  draw: () => {
    const input = chipInput(view, ref);
    return input && chipPicture(input);
  },
});

/** The grid with a crossing framed, below all that is said of it: cautions and what to clear come first. */
export function matrixPictureFor(
  view: LogView,
  table: LogTable,
  markdown: string,
  reading: Reading,
): HoverPicture | undefined {
  const board = view.ctx.board?.value;
  const matrix = board && matrixOfTable(table, board);
  if (!matrix) return undefined;
  const here = crossingOf(reading, shapeOf(matrix));
  return here && { at: markdown.length, draw: () => matrixDrawing(view, matrix, { here }) };
}

/** The grid of the matrix a heading's tables are of. */
export function matrixPictureOfSection(
  view: LogView,
  section: Section,
  at: number,
): HoverPicture | undefined {
  const board = view.ctx.board?.value;
  const log = board && matrixLogs(view.doc, board).find((each) => isOf(each, section));
  return log && { at, draw: () => matrixDrawing(view, log.matrix) };
}

const isOf = ({ tables }: MatrixLog, section: Section): boolean =>
  tables.some(({ table }) => table.section === section);
