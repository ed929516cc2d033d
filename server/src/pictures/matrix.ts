// A switch or lamp matrix as a grid: what the tests say of every crossing.

import { xml } from "../text/html";
import { CELL_MARKS, CELL_STATES, type CellState, cellDefs, cellId } from "./marks";
import { fitted, INK, legend, n, type Picture, picture, textWidth, WIDEST_PICTURE } from "./svg";

export interface MatrixInput {
  readonly title: string;
  /** Names of the lines, in order. */
  readonly rows: readonly string[];
  readonly columns: readonly string[];
  /** Row by row; what is left out is untested. */
  readonly cells: readonly (readonly CellState[])[];
  /** The crossing asked about, framed; rows and columns count from 1. */
  readonly here?: { readonly row: number; readonly column: number };
}

/** More lines than this leave no room for a letter. */
const MOST_LINES = 16;
/** More crossings than this make the picture too large for a hover. */
const MOST_CROSSINGS = 112;
/** Crossings of one kind named one by one in words. */
const FEW = 24;

const EDGE = 10;
const SMALL = 11;
const LABEL_ROOM = 84;
const NAME_ROOM = 70;

const stateAt = ({ cells }: MatrixInput, row: number, column: number): CellState =>
  cells[row]?.[column] ?? "untested";

/** The picture; undefined for a matrix without lines or with more than can be drawn. */
export function matrixPicture(input: MatrixInput): Picture | undefined {
  const { rows, columns, title, here } = input;
  if (rows.length < 1 || columns.length < 1) return undefined;
  if (rows.length > MOST_LINES || columns.length > MOST_LINES) return undefined;
  if (rows.length * columns.length > MOST_CROSSINGS) return undefined;
  const longest = (names: readonly string[], most: number): number =>
    Math.min(most, Math.max(0, ...names.map((name) => textWidth(name, SMALL))));
  const numberRoom = 20;
  const label = numberRoom + longest(rows, LABEL_ROOM) + 6;
  const series = seriesOf(columns);
  const nameHeight = series === undefined ? longest(columns, NAME_ROOM) : SMALL + 2;
  const cell = Math.floor(Math.min(38, (WIDEST_PICTURE - 2 * EDGE - label) / columns.length));
  const size = { width: cell, height: cell >= 30 ? 22 : 30 };
  const left = EDGE + label;
  const top = 32 + nameHeight + 22;
  const gridWidth = cell * columns.length;
  const gridHeight = size.height * rows.length;
  const width = Math.min(
    WIDEST_PICTURE,
    Math.max(left + gridWidth + EDGE, textWidth(title, 14) + 2 * EDGE, 250),
  );

  const states = rows.map((_, row) => columns.map((_, column) => stateAt(input, row, column)));
  const present = CELL_STATES.filter((state) => states.some((line) => line.includes(state)));
  const middle = (row: number, column: number): string =>
    `x="${n(left + cell * (column + 0.5))}" y="${n(top + size.height * (row + 0.5))}"`;
  const uses = states
    .flatMap((line, row) =>
      line.map((state, column) => `<use href="#${cellId(state)}" ${middle(row, column)}/>`),
    )
    .join("");
  const lines =
    rows.map((_, row) => `M${left} ${n(top + size.height * row)}h${gridWidth}`).join("") +
    columns.map((_, column) => `M${n(left + cell * column)} ${n(top)}v${gridHeight}`).join("");
  const rowLabels = rows
    .map((name, row) => {
      const y = n(top + size.height * (row + 0.5) + 4);
      return `<text x="${n(EDGE + 14)}" y="${y}" text-anchor="end" font-weight="700">${row + 1}</text><text x="${n(EDGE + numberRoom)}" y="${y}">${xml(fitted(name, LABEL_ROOM, SMALL))}</text>`;
    })
    .join("");
  const columnLabels = columns
    .map((name, column) => {
      const x = left + cell * (column + 0.5);
      const upright = `<text x="${n(x)}" y="${n(top - 6)}" text-anchor="middle" font-weight="700">${column + 1}</text>`;
      if (series !== undefined) return upright;
      return `${upright}<text transform="translate(${n(x + 4)} ${n(top - 20)})rotate(-90)">${xml(fitted(name, NAME_ROOM, SMALL))}</text>`;
    })
    .join("");
  const axis =
    series === undefined
      ? ""
      : `<text x="${n(left)}" y="${n(top - 22)}">${xml(fitted(series, width - left - EDGE, SMALL))}</text>`;
  const framed =
    here && here.row <= rows.length && here.column <= columns.length
      ? `<rect x="${n(left + cell * (here.column - 1) - 1)}" y="${n(top + size.height * (here.row - 1) - 1)}" width="${cell + 2}" height="${size.height + 2}" fill="none" stroke="${INK.panel}" stroke-width="5"/><rect x="${n(left + cell * (here.column - 1) - 1)}" y="${n(top + size.height * (here.row - 1) - 1)}" width="${cell + 2}" height="${size.height + 2}" fill="none" stroke="${INK.text}" stroke-width="2.6"/>`
      : "";
  const below = top + gridHeight + 10;
  const key = legend(
    present.map((state) => ({ id: `k${cellId(state)}`, words: CELL_MARKS[state].words })),
    { left: EDGE + 8, top: below, width: width - 2 * EDGE - 8 },
  );
  return picture({
    title,
    alt: matrixWords(input),
    width,
    height: below + key.height + 6,
    // The key's cells are of one size, whatever the grid's are.
    defs:
      cellDefs(present, size) +
      cellDefs(present, { width: 32, height: 17 })
        .replace(/<pattern.*?<\/pattern>/g, "")
        .replaceAll('id="c', 'id="kc'),
    content: [
      `<text x="${EDGE}" y="20" font-size="13" font-weight="700" fill="${INK.text}">${xml(fitted(title, width - 2 * EDGE, 14))}</text>`,
      `<g font-size="${SMALL}" fill="${INK.text}">${rowLabels}${columnLabels}${axis}</g>`,
      uses,
      `<path d="${lines}M${left} ${n(top + gridHeight)}h${gridWidth}v-${gridHeight}" fill="none" stroke="${INK.grid}"/>`,
      framed,
      key.svg,
    ].join(""),
  });
}

/** "SW_COL_1 to 8": names that only count need not stand upright over every column. */
function seriesOf(names: readonly string[]): string | undefined {
  const prefix = names[0]?.replace(/\d+$/, "") ?? "";
  if (names.length < 2 || prefix === "") return undefined;
  return names.every((name, i) => name === `${prefix}${i + 1}`)
    ? `${names[0]} to ${names.length}`
    : undefined;
}

/** The same in words: how many crossings are what, and which those are that do not simply work. */
export function matrixWords(input: MatrixInput): string {
  const { title, rows, columns } = input;
  const all = rows.flatMap((_, row) =>
    columns.map((_, column) => ({ at: `${row + 1},${column + 1}`, state: stateAt(input, row, column) })),
  );
  const said = CELL_STATES.flatMap((state) => {
    const at = all.filter((cell) => cell.state === state).map((cell) => cell.at);
    if (at.length === 0) return [];
    const { words } = CELL_MARKS[state];
    if (state === "works" || at.length === all.length) return `${words}: ${at.length} of ${all.length}`;
    const named = at.length > FEW ? `${at.slice(0, FEW).join("; ")} and more` : at.join("; ");
    return `${words}: ${at.length} (row,column ${named})`;
  });
  return `${title}, ${rows.length} rows by ${columns.length} columns. ${said.join(". ")}.`;
}
