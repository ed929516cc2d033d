// Tables of readings as a technician writes them: a heading, the columns, the rows, cells apart by strokes.

const line = (cells: string): string => `| ${cells} |\n`;

/** Rows as "U14 | 1 | 0.58". */
export const rows = (...cells: readonly string[]): string => cells.map(line).join("");

/** The columns as "Ref | Pin | Reading", with the line below them. */
export const header = (columns: string): string => `${line(columns)}|${columns.replace(/[^|]+/g, "---")}|\n`;

/** A log's body with two drops that are wrong and one that is right, its columns padded as an editor pads them. */
export const TWO_WRONG_DROPS = `# A board

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 2   | 1.42    |
| U14 | 4   | OL      |
| U15 | 3   | 0.58    |
`;

/** A heading with its table, and the empty line behind it. */
export const table = (heading: string, columns: string, ...cells: readonly string[]): string =>
  `## ${heading}\n\n${header(columns)}${rows(...cells)}\n`;
