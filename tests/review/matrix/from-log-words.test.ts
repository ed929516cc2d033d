import { describe, expect, it, test } from "vitest";
import type { MatrixShape } from "../../../server/src/compute/matrix/shape";
import { parseCell } from "../../../server/src/quantity/parse-cell";
import { cellNamed, lineNamed, pairsIn, readResult } from "../../../server/src/review/matrix/from-log-words";

const SHAPE: MatrixShape = {
  rows: 3,
  columns: 4,
  reserved: [],
  rowNames: ["SW_ROW_1", "SW_ROW_2", "SW_ROW_3"],
  columnNames: ["C_A", "C_B", "C_C", "C_D"],
  cellNames: [
    ["Coin", "Start", "Tilt", null],
    ["Lane 1 gate", "Lane 2 gate", "Bell", "Bell"],
    [null, null, null, "Left + right"],
  ],
};
const at11 = { row: 1, column: 1 };
const read = (typed: string) => readResult(parseCell(typed, { kind: "result" }), SHAPE, at11);

describe("a result", () => {
  it.each([
    ["ok", "works"],
    ["OK (twice)", "works"],
    ["works", "works"],
    ["closes", "works"],
    ["closed", "works"],
    ["lit", "works"],
    ["dead", "dead"],
    ["no", "dead"],
    ["dark", "dead"],
    ["OL", "dead"],
    ["stuck off", "dead"],
    ["stuck open", "dead"],
    ["stuck", "stuck"],
    ["stuck closed", "stuck"],
    ["always on", "stuck"],
    ["closed at power-up", "stuck"],
    ["short", "stuck"],
    ["intermittent", "intermittent"],
    ["dim", "intermittent"],
    ["wrong", "intermittent"],
  ])("%s is %s", (typed, state) => expect(read(typed)?.state).toBe(state));

  it.each(["", "-", "3", "0.5 V", "see below", "row 2"])("%j is none", (typed) =>
    expect(read(typed)).toBeUndefined(),
  );
});

describe("what else was shown", () => {
  const cells = (...pairs: (readonly [number, number])[]) => pairs.map(([row, column]) => ({ row, column }));
  it.each([
    ["closes 3,2 too", true, cells([3, 2])],
    ["ok, closes 3,2 too", true, cells([3, 2])],
    ["closes 3/2 as well", true, cells([3, 2])],
    ["closes (3,2) too", true, cells([3, 2])],
    ["also r3c2 and r2c4", true, cells([3, 2], [2, 4])],
    ["also row 3 column 2", true, cells([3, 2])],
    ["also row 3, col 2", true, cells([3, 2])],
    ["closes 3,2", false, cells([3, 2])],
    ["shows 1,2", false, cells([1, 2])],
    ["ok + 3,2", true, cells([3, 2])],
    ["closes Tilt too", true, cells([1, 3])],
    ["also Lane 2 gate", true, cells([2, 2])],
    ["closes 1,1 and 1,2 too", true, cells([1, 2])],
  ])("%s: itself %s, besides %j", (typed, own, others) =>
    expect(read(typed)).toEqual({ state: "closes-others", own, others }),
  );

  test("outside the matrix is not believed", () => {
    expect(read("closes 9,9 too")?.state).not.toBe("closes-others");
    expect(read("also 5,1")).toBeUndefined();
  });

  test("a name that stands at two crossings names neither", () => {
    expect(cellNamed("Bell", SHAPE)).toBeUndefined();
    expect(cellNamed(" lane 1  GATE ", SHAPE)).toEqual({ row: 2, column: 1 });
  });
});

test.each(["2", "row 2", "Row2", "R2", "r 2", "sw_row_2", " SW_ROW_2 "])("%j is row 2", (typed) => {
  expect(lineNamed(typed, "row", SHAPE)).toBe(2);
});

test.each(["C_D", "col 4"])("%j is column 4", (typed) => {
  expect(lineNamed(typed, "column", SHAPE)).toBe(4);
});

test.each(["0", "4", "C2", "col 2", "SW_ROW_9", "two", "2.5", "-2"])("%j is no row", (typed) => {
  expect(lineNamed(typed, "row", SHAPE)).toBeUndefined();
});

test("pairs of numbers are crossings", () => {
  expect(pairsIn("3,2")).toEqual([{ row: 3, column: 2 }]);
  expect(pairsIn("1,1 + 1,2 + 2,1")).toHaveLength(3);
});

test.each(["3.2", "32", "2026-03-02", "U14", "0.5,0.6"])("%s is no crossing", (typed) => {
  expect(pairsIn(typed)).toEqual([]);
});
