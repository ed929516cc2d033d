// Matrices by the grids that a block notes them in: the lines are those that the grid has.
import { headingWords } from "../../knowledge/heading-match";
import type { LogBlock, LogTable } from "../model";
import type { LocatedStatement, MatrixStated } from "./statement";

/** As many lines as any board scans. */
const MOST_LINES = 32;

export function matricesStated(block: LogBlock): LocatedStatement<MatrixStated>[] {
  return block.tables.flatMap((table): LocatedStatement<MatrixStated>[] => {
    const of = table.kind.matrix;
    const grid = of && (table.shape === "wide" ? gridOf(table) : crossingsOf(table));
    return of && grid
      ? [{ kind: "matrix", of, ...grid, words: wordsOf(table), span: table.source.header.span }]
      : [];
  });
}

function gridOf({ columns, source }: LogTable): Pick<MatrixStated, "rows" | "columns"> | undefined {
  const across = columns
    .slice(1)
    .flatMap(({ header, spec }) => (spec || header.text === "" ? [] : [header.text]));
  const down = source.rows.flatMap(({ cells }) => (cells[0] && cells[0].text !== "" ? [cells[0].text] : []));
  const isTurned = /^\s*(?:col|strobe)/i.test(columns[0]?.header.text ?? "");
  const rows = linesOf(isTurned ? across : down);
  const cols = linesOf(isTurned ? down : across);
  return rows && cols ? { rows, columns: cols } : undefined;
}

/** A row a crossing makes a grid where it names at least two lines each way. */
function crossingsOf({ rows: all }: LogTable): Pick<MatrixStated, "rows" | "columns"> | undefined {
  const named = (role: "row" | "column"): string[] => all.flatMap(({ cells }) => cells[role]?.text ?? []);
  const rows = linesOf(named("row"));
  const columns = linesOf(named("column"));
  return rows && columns && rows.length > 1 && columns.length > 1 ? { rows, columns } : undefined;
}

/** Numbered lines count from 1 to the highest; others are as many as are named, in the order they stand. */
function linesOf(names: readonly string[]): string[] | undefined {
  const numbers = names.map(
    (name) => /^(?:row|col(?:umn)?|strobe|return|r|c)?\s*(\d{1,2})$/i.exec(name.trim())?.[1],
  );
  // Lines that are counted from 0 go by the names they have.
  const isCounted = numbers.every((number) => number !== undefined) && !numbers.some((n) => Number(n) === 0);
  const most = isCounted ? Math.max(...numbers.map(Number)) : undefined;
  const lines =
    most === undefined
      ? [...new Set(names)]
      : Array.from({ length: Math.min(most, MOST_LINES + 1) }, (_, i) => String(i + 1));
  return lines.length >= 1 && lines.length <= MOST_LINES ? lines : undefined;
}

/** What the heading says besides that it is of a matrix: "door", of "Switch matrix, door switches". */
function wordsOf({ section, procedure }: LogTable): string {
  const own = new Set([procedure.title, ...procedure.aliases].flatMap(headingWords));
  const circumstances = new Set([
    "before",
    "after",
    "repair",
    "the",
    "of",
    "powered",
    "unpowered",
    "again",
    "and",
  ]);
  const words = headingWords(section.heading?.text ?? "");
  return words.filter((word) => !own.has(word) && !circumstances.has(word)).join(" ");
}
