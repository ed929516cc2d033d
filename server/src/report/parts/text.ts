import { type DisplayCell, displayCells } from "../../text/display-width";

/** Rows with their cells one below the other, no blanks at the end of a line, control characters as pictures. */
export function columns(rows: readonly (readonly string[])[], indent: string): string[] {
  const laidOut = rows.map((row) => row.map((cell) => displayCells(cell)));
  const widths: number[] = [];
  for (const row of laidOut)
    for (const [at, cells] of row.entries()) widths[at] = Math.max(widths[at] ?? 0, widthOf(cells));
  return laidOut.map((row) => {
    const padded = row.map((cells, at) => {
      const text = cells.map(({ text: shown }) => shown).join("");
      return text + " ".repeat((widths[at] ?? 0) - widthOf(cells));
    });
    return (indent + padded.join("  ")).trimEnd();
  });
}

const widthOf = (cells: readonly DisplayCell[]): number => cells.reduce((all, { width }) => all + width, 0);
