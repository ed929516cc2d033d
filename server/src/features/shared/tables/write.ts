import { encodeCell } from "../../../syntax/tables";
import { displayWidth } from "../../../text/display-width";
import { literal } from "../snippet-text";
import type { TableLayout } from "./layouts";
import { whenLeft } from "./leaving";

/** Characters of a reading as it is mostly typed: "5.02", "dead". */
const TYPED = 5;

/** Characters of a reading whose point was put in: "0.558 V". */
const POINTED = 7;

/** The lines of a table. */
export interface WrittenTable {
  readonly plain: string[];
  /** With a tab stop in each cell to be filled in. */
  readonly snippet: string[];
  /** The same for an editor that knows variables and transforms: it straightens each cell as the cursor leaves it. */
  readonly filled: string[] | undefined;
}

/**
 * The lines of a laid-out table. A name that is still to be typed comes first and is typed once.
 * @param down the stops go down each column and not along each row, as one chip is read after the other
 */
export function writeLayout({ header, rows, unnamed, digits }: TableLayout, down = false): WrittenTable {
  const cells = [header, ...rows].map((row) => row.map((cell) => encodeCell(cell ?? "")));
  const widths = header.map((_, i) =>
    Math.max(leastOf(rows, i, down, digits !== undefined), ...cells.map((row) => displayWidth(row[i] ?? ""))),
  );
  const pad = (text: string, i: number) =>
    text + " ".repeat(Math.max(0, (widths[i] ?? 0) - displayWidth(text)));
  const line = (row: readonly string[]) => `| ${row.map(pad).join(" | ")} |`;
  const [head = "", ...body] = cells.map(line);
  const rule = `|${widths.map((w) => "-".repeat(w + 2)).join("|")}|`;
  const first = unnamed === undefined ? 1 : 2;
  const stops = stopsIn(rows, down, first);
  const laidOut = (open: (stop: number, i: number) => string, closed: (text: string) => string): string[] => {
    let isNamed = false;
    return rows.map((row, r) => {
      const shown = row.map((cell, i) => {
        const padded = pad(cells[r + 1]?.[i] ?? "", i);
        const stop = stops.get(`${r} ${i}`);
        if (unnamed !== undefined && cell === unnamed) {
          const own = isNamed ? "$1" : `\${1:${unnamed}}`;
          isNamed = true;
          return own + padded.slice(unnamed.length);
        }
        return stop === undefined ? closed(literal(padded)) : open(stop, i);
      });
      return `| ${shown.join(" | ")} |`;
    });
  };
  const blanksIn = (i: number) => " ".repeat(widths[i] ?? 0);
  // Blanks that are typed over leave the columns in line.
  const withStops = laidOut(
    (stop, i) => `\${${stop}:${blanksIn(i).slice(0, TYPED)}}${blanksIn(i).slice(TYPED)}`,
    (text) => text,
  );
  const left = widths.map((width) => whenLeft(width, digits));
  const asTyped = [...stops]
    .map(([place, stop]) => `\${${stop}:${blanksIn(Number(place.split(" ")[1]))}}`)
    .join("");
  let isTold = false;
  const filled = laidOut(
    (stop, i) => `\${${stop}${left[i]}}`,
    (text) => {
      if (isTold || !text.includes("1")) return text;
      isTold = true;
      // A stop with a transform can name no text to begin with, and takes that of another stop of its number. Those
      // stand in place of the variable, which with one cursor is "1": they are read and never shown.
      return text.replace("1", () => `\${CURSOR_NUMBER:${asTyped}}`);
    },
  );
  const whole = [literal(head), rule];
  return {
    plain: [head, rule, ...body],
    snippet: [...whole, ...withStops],
    filled: isTold ? [...whole, ...filled] : undefined,
  };
}

/** Room for a reading of a meter; in a grid of words a column is as narrow as Markdown lets it be. */
const leastOf = (rows: TableLayout["rows"], i: number, down: boolean, pointed: boolean): number => {
  if (!rows.some((row) => row[i] === undefined)) return 3;
  return pointed ? POINTED : down ? TYPED : 3;
};

/** The number of the stop in each cell to be filled in, by "row column". */
function stopsIn(rows: TableLayout["rows"], down: boolean, first: number): ReadonlyMap<string, number> {
  const open = rows.flatMap((row, r) =>
    row.flatMap((cell, c) => (cell === undefined ? [[r, c] as const] : [])),
  );
  if (down) open.sort(([r, c], [s, d]) => c - d || r - s);
  return new Map(open.map(([r, c], i) => [`${r} ${c}`, i + first]));
}
