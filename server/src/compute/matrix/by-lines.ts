// Crossings that share a fault (all dead, all stuck) explained by as few faults as can be: whole rows and columns
// first, single crossings for what no line can explain.
import { minimumVertexCover } from "./matching";
import { cellOf, type MatrixLine, type MatrixShape } from "./shape";

/** Fewer tested crossings do not make a line suspect: one is a crossing. */
export const FEWEST_ON_A_LINE = 2;

export interface LineFault extends MatrixLine {
  /** Keys of the crossings it explains, all that bear the mark on it. */
  readonly cells: ReadonlySet<number>;
  /** True where every explanation with as few faults needs this line; else another is as short. */
  readonly needed: boolean;
}

export interface LineExplanation {
  readonly lines: readonly LineFault[];
  /** Keys of marked crossings that no line explains. */
  readonly cells: readonly number[];
  /** Lines nothing speaks against, though the faults above explain their crossings without them. */
  readonly notExcluded: readonly MatrixLine[];
}

interface Candidates {
  readonly rows: ReadonlyMap<number, ReadonlySet<number>>;
  readonly columns: ReadonlyMap<number, ReadonlySet<number>>;
}

/**
 * A line may be at fault where at least two of its crossings bear the mark and every other one tested does too. Each
 * marked crossing needs a line at fault or a fault of its own; since a line serves at least as well as the crossing,
 * the fewest faults are the lines without which a crossing would stay unexplained, and a smallest vertex
 * cover of the crossings where both lines may be at fault. Sets hold keys (`keyOf`) inside the shape.
 */
export function explainByLines(
  shape: MatrixShape,
  marked: ReadonlySet<number>,
  tested: ReadonlySet<number>,
): LineExplanation {
  const candidates = candidatesOf(shape, marked, tested);
  const chosen = fewest(marked, candidates);
  const all: readonly MatrixLine[] = [
    ...[...candidates.rows.keys()].map((number) => ({ kind: "row", number }) as const),
    ...[...candidates.columns.keys()].map((number) => ({ kind: "column", number }) as const),
  ];
  const isChosen = ({ kind, number }: MatrixLine): boolean =>
    (kind === "row" ? chosen.rows : chosen.columns).has(number);
  const size = sizeOf(chosen);
  return {
    lines: all.filter(isChosen).map((line) => ({
      ...line,
      cells: (line.kind === "row" ? candidates.rows : candidates.columns).get(line.number)!,
      needed: sizeOf(fewest(marked, without(candidates, line))) > size,
    })),
    cells: [...chosen.cells].sort((a, b) => a - b),
    notExcluded: all.filter((line) => !isChosen(line)),
  };
}

function candidatesOf(
  { rows, columns }: MatrixShape,
  marked: ReadonlySet<number>,
  tested: ReadonlySet<number>,
): Candidates {
  const along = (kind: MatrixLine["kind"], count: number): Map<number, ReadonlySet<number>> => {
    const found = new Map<number, ReadonlySet<number>>();
    for (let number = 1; number <= count; number += 1) {
      const on = [...tested].filter((key) => cellOf(key)[kind] === number);
      const at = on.filter((key) => marked.has(key));
      if (at.length >= FEWEST_ON_A_LINE && at.length === on.length) found.set(number, new Set(at));
    }
    return found;
  };
  return { rows: along("row", rows), columns: along("column", columns) };
}

const without = ({ rows, columns }: Candidates, { kind, number }: MatrixLine): Candidates => {
  const keep = (lines: Candidates["rows"]) => new Map([...lines].filter(([line]) => line !== number));
  return kind === "row" ? { rows: keep(rows), columns } : { rows, columns: keep(columns) };
};

interface Faults {
  readonly rows: ReadonlySet<number>;
  readonly columns: ReadonlySet<number>;
  readonly cells: ReadonlySet<number>;
}

const sizeOf = ({ rows, columns, cells }: Faults): number => rows.size + columns.size + cells.size;

function fewest(marked: ReadonlySet<number>, candidates: Candidates): Faults {
  const rows = new Set<number>();
  const columns = new Set<number>();
  const cells = new Set<number>();
  const either: { readonly row: number; readonly column: number }[] = [];
  for (const key of marked) {
    const { row, column } = cellOf(key);
    const byRow = candidates.rows.has(row);
    const byColumn = candidates.columns.has(column);
    if (byRow && byColumn) either.push({ row, column });
    else if (byRow) rows.add(row);
    else if (byColumn) columns.add(column);
    else cells.add(key);
  }
  const open = either.filter(({ row, column }) => !rows.has(row) && !columns.has(column));
  const left = [...new Set(open.map(({ row }) => row))];
  const cover = minimumVertexCover(
    left.map((at) => open.filter(({ row }) => row === at).map(({ column }) => column)),
  );
  for (const index of cover.left) rows.add(left[index]!);
  for (const column of cover.right) columns.add(column);
  return { rows, columns, cells };
}
