// Paths of image files, in the cells of a ROM check that name them.
import { defined } from "../../base/defined";
import { type CellPosition, positionAt } from "../../log/position";
import type { Completion } from "../types";
import type { LogView } from "../view";

/** The cell at the cursor, where an image's path belongs into it. */
export function imageCellAt(view: LogView, offset: number): CellPosition | undefined {
  const at = positionAt(view.doc, offset);
  if (at.kind !== "cell" || at.cell.extra || at.table.kind.holds !== "images") return undefined;
  return at.spec?.measure === "image" ? at : undefined;
}

/** What would end the cell or change what it says. */
const UNFIT = /[|`<>[\]\\\p{Cc}]/u;

/**
 * Files that can be named there; those that the table does not name yet come first, and of these the ones whose name
 * holds the row's designator.
 * @param paths from the log's own folder, with forward slashes
 */
export function completeImages(
  view: LogView,
  offset: number,
  paths: readonly string[],
): readonly Completion[] {
  const at = imageCellAt(view, offset);
  if (!at) return [];
  const named = at.table.readings
    .filter(({ cell, measure }) => measure === "image" && cell !== at.cell)
    .map(({ value }) => value.typed);
  const ref = at.table.rows[at.row]?.cells.ref?.text.toLowerCase();
  const rank = (path: string): number => {
    if (named.some((typed) => typed.includes(path))) return 2;
    const words = path
      .slice(path.lastIndexOf("/") + 1)
      .toLowerCase()
      .split(/[^a-z0-9]+/);
    return ref !== undefined && words.includes(ref) ? 0 : 1;
  };
  return paths
    .filter((path) => !UNFIT.test(path))
    .map((path) => ({ path, rank: rank(path) }))
    .sort((a, b) => a.rank - b.rank || (a.path < b.path ? -1 : 1))
    .map(({ path, rank: place }) =>
      defined({
        label: path,
        kind: "value",
        description: place === 2 ? "already in this table" : undefined,
        span: at.edit,
        newText: path,
      }),
    );
}
