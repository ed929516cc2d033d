// The switches that words or a symptom may be about, and what tells one from the other: the row and the column that
// each is on.

import type { Crossing } from "../../compute/matrix/shape";
import type { Board, Matrix } from "../../knowledge/types";

/** A switch of a matrix by its name in the board file, rows and columns from 1. */
export interface NamedInput {
  readonly name: string;
  readonly matrix: Matrix;
  readonly cell: Crossing;
}

function inputsOf(board: Board): NamedInput[] {
  return [...board.matrices.values()]
    .filter(({ kind }) => kind === "switch")
    .flatMap((matrix) =>
      matrix.cells.flatMap((names, row) =>
        names.flatMap((name, column) =>
          name === null ? [] : [{ name, matrix, cell: { row: row + 1, column: column + 1 } }],
        ),
      ),
    );
}

/** Inputs by their names, in the order of the names. */
export function inputsCalled(names: readonly string[], board: Board): NamedInput[] {
  const all = inputsOf(board);
  return names.flatMap((name) => all.filter((input) => input.name === name));
}

/** Words that stand in any sentence and in many names. */
const IDLE = new Set(["the", "and", "not", "never", "always", "one", "all", "left", "right", "near", "far"]);

/** Words of a text as compared: lower case, without a plural's s; numbers as they are. */
const wordsOf = (text: string): string[] =>
  (text.toLowerCase().match(/[\p{L}]+|\d+/gu) ?? []).map((word) =>
    word.length > 3 ? word.replace(/s$/, "") : word,
  );

/**
 * Inputs that a customer's words may mean: "lane 3 never scores" means all of lane 3. Those that share most of
 * their own words with the text; every number in a name must be in it. Empty where no name is close.
 */
export function inputsMeant(text: string, board: Board): NamedInput[] {
  const said = new Set(wordsOf(text));
  const rated = inputsOf(board).flatMap((input) => {
    const words = wordsOf(input.name);
    const numbers = words.filter((word) => /\d/.test(word));
    if (numbers.some((word) => !said.has(word))) return [];
    const names = words.filter((word) => !/\d/.test(word) && !IDLE.has(word));
    const hits = names.filter((word) => said.has(word)).length;
    return hits === 0 ? [] : [{ input, rate: hits / names.length }];
  });
  const all = rated.filter(({ rate }) => rate === 1);
  const most = rated.filter(({ rate }) => rate >= 0.3);
  return (all.length > 0 ? all : most).map(({ input }) => input);
}

/** A row or column of a matrix with those of the switches in question that are on it. */
export interface SharedLine {
  readonly kind: "row" | "column";
  readonly number: number;
  readonly net: string | undefined;
  readonly inputs: readonly NamedInput[];
}

/** Rows and columns that two or more of the inputs are on, those with most of them first. */
export function sharedLines(inputs: readonly NamedInput[]): SharedLine[] {
  const lines = new Map<string, { -readonly [K in keyof SharedLine]: SharedLine[K] }>();
  for (const input of inputs) {
    for (const kind of ["row", "column"] as const) {
      const number = input.cell[kind];
      const { id, rows, columns } = input.matrix;
      const key = `${id} ${kind} ${number}`;
      const line = lines.get(key);
      if (line) line.inputs = [...line.inputs, input];
      else
        lines.set(key, {
          kind,
          number,
          net: (kind === "row" ? rows : columns)[number - 1],
          inputs: [input],
        });
    }
  }
  return [...lines.values()]
    .filter(({ inputs: on }) => on.length > 1)
    .sort((a, b) => b.inputs.length - a.inputs.length);
}
