// Matrices by the grids that their tests were noted in.

import { fileless, layOver } from "../../judge/stated/lay-over";
import type { DraftMatrix } from "../../knowledge/board-file/draft";
import type { Library } from "../../knowledge/library";
import type { Board, Matrix } from "../../knowledge/types";
import type { MatrixStated } from "../../log/stated/statement";
import { asSaid, type DraftSaying } from "./sayings";

/** Only of a kind that the board has none of. */
export function draftMatrices(
  sayings: readonly DraftSaying<MatrixStated>[],
  base: Board,
  library: Library,
): DraftMatrix[] {
  if (sayings.length === 0) return [];
  const { board } = layOver(fileless("", base), sayings.map(asSaid), library, { hasFile: true, jobs: 0 });
  return [...board.value.matrices.values()].flatMap((matrix): DraftMatrix[] => {
    if (base.matrices.has(matrix.id)) return [];
    const { id, kind, title } = matrix;
    const first = sayings.find(
      ({ statement: { of, words } }) => of === kind && (words || plainTitle(of)) === title,
    );
    return [
      {
        id,
        kind,
        title,
        rows: linesOf(matrix, "ROW"),
        columns: linesOf(matrix, "COL"),
        from: first?.from ?? "",
      },
    ];
  });
}

const plainTitle = (of: MatrixStated["of"]): string => (of === "switch" ? "Switch matrix" : "Lamp matrix");

/** A line that the grid only numbers gets the name of a net, since a board file knows lines by their nets. */
function linesOf({ kind, id, rows, columns }: Matrix, line: "ROW" | "COL"): string[] {
  const words = id.split("-").slice(1).join("_").toUpperCase();
  const prefix = [kind === "switch" ? "SW" : "LAMP", words, line].filter(Boolean).join("_");
  return (line === "ROW" ? rows : columns).map((name, at) => name || `${prefix}_${at + 1}`);
}
