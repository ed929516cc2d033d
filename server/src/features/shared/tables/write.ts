import { encodeCell } from "../../../syntax/tables";
import { displayWidth } from "../../../text/display-width";
import { literal } from "../snippet-text";
import type { TableLayout } from "./layouts";

/** Characters of a reading as it is mostly typed: "5.02", "dead". */
const TYPED = 5;

/**
 * The lines of a laid-out table: plain, and with a tab stop in each cell to be filled in. A name that is still to be
 * typed comes first and is typed once.
 * @param down the stops go down each column and not along each row, as one chip is read after the other
 */
export function writeLayout(
  { header, rows, unnamed }: TableLayout,
  down = false,
): { plain: string[]; snippet: string[] } {
  const cells = [header, ...rows].map((row) => row.map((cell) => encodeCell(cell ?? "")));
  const widths = header.map((_, i) =>
    Math.max(leastOf(rows, i, down), ...cells.map((row) => displayWidth(row[i] ?? ""))),
  );
  const pad = (text: string, i: number) =>
    text + " ".repeat(Math.max(0, (widths[i] ?? 0) - displayWidth(text)));
  const line = (row: readonly string[]) => `| ${row.map(pad).join(" | ")} |`;
  const [head = "", ...body] = cells.map(line);
  const rule = `|${widths.map((w) => "-".repeat(w + 2)).join("|")}|`;
  const first = unnamed === undefined ? 1 : 2;
  const stops = stopsIn(rows, down, first);
  let isNamed = false;
  const withStops = rows.map((row, r) => {
    const shown = row.map((cell, i) => {
      const padded = pad(cells[r + 1]?.[i] ?? "", i);
      const stop = stops.get(`${r} ${i}`);
      if (unnamed !== undefined && cell === unnamed) {
        const own = isNamed ? "$1" : `\${1:${unnamed}}`;
        isNamed = true;
        return own + padded.slice(unnamed.length);
      }
      if (stop === undefined) return literal(padded);
      // Blanks that are typed over leave the columns in line.
      return `\${${stop}:${padded.slice(0, TYPED)}}${padded.slice(TYPED)}`;
    });
    return `| ${shown.join(" | ")} |`;
  });
  return { plain: [head, rule, ...body], snippet: [literal(head), rule, ...withStops] };
}

/** Room for a reading of a meter; in a grid of words a column is as narrow as Markdown lets it be. */
const leastOf = (rows: TableLayout["rows"], i: number, down: boolean): number =>
  down && rows.some((row) => row[i] === undefined) ? TYPED : 3;

/** The number of the stop in each cell to be filled in, by "row column". */
function stopsIn(rows: TableLayout["rows"], down: boolean, first: number): ReadonlyMap<string, number> {
  const open = rows.flatMap((row, r) =>
    row.flatMap((cell, c) => (cell === undefined ? [[r, c] as const] : [])),
  );
  if (down) open.sort(([r, c], [s, d]) => c - d || r - s);
  return new Map(open.map(([r, c], i) => [`${r} ${c}`, i + first]));
}
