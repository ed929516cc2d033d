// Matrices that only a grid tells of.
import type { Board, Matrix } from "../../knowledge/types";
import type { MatrixStated } from "../../log/stated/statement";
import type { AttributedStatement, Layer, SaidBy } from "./types";

/** A grid is a matrix of its own only where the board file has none of the kind. */
export function matricesOf({ matrices }: Board, said: readonly AttributedStatement[]): Layer<Matrix> {
  const by = new Map<string, SaidBy>();
  if (!said.some(({ statement }) => statement.kind === "matrix")) return { all: matrices, by };
  const all = new Map(matrices);
  const kinds = new Set([...matrices.values()].map(({ kind }) => kind));
  const found = new Map<string, { grids: MatrixStated[]; by: SaidBy }>();
  for (const { statement, by: whose } of said) {
    if (statement.kind !== "matrix" || kinds.has(statement.of)) continue;
    const key = `${statement.of} ${statement.words}`;
    const seen = found.get(key);
    if (!seen) found.set(key, { grids: [statement], by: whose });
    else seen.grids.push(statement);
  }
  for (const { grids, by: whose } of found.values()) {
    const [first] = grids;
    if (!first) continue;
    const id = [first.of === "switch" ? "switches" : "lamps", first.words]
      .filter(Boolean)
      .join("-")
      .replace(/\W+/g, "-");
    // The largest grid is the whole: others may show part of it.
    const longest = (lines: "rows" | "columns") =>
      grids.map((grid) => grid[lines]).reduce((a, b) => (b.length > a.length ? b : a));
    const rows = longest("rows");
    const columns = longest("columns");
    all.set(id, {
      id,
      kind: first.of,
      title: first.words || (first.of === "switch" ? "Switch matrix" : "Lamp matrix"),
      rows: rows.map(netName),
      columns: columns.map(netName),
      cells: [],
      reserved: [],
    });
    by.set(id, whose);
  }
  return { all, by };
}

/** A line that is only numbered has no net that anybody knows of. */
const netName = (line: string, at: number): string => (line === String(at + 1) ? "" : line);
