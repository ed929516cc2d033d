import { expect, test } from "vitest";
import { crossingsToClear } from "../../../server/src/compute/matrix/crossings";
import { shapeOf } from "../../../server/src/compute/matrix/shape";
import { inWords } from "../../../server/src/text/saying";
import { words } from "../../support/words";
import { accepted, reasonOf } from "./support";

const shape = shapeOf({
  id: "switches",
  kind: "switch",
  title: "Switch matrix",
  rows: ["SW_ROW_1", "SW_ROW_2", "SW_ROW_3"],
  columns: ["SW_COL_1", "SW_COL_2"],
  cells: [
    ["Coin", "Start"],
    ["Gate", "Finish"],
    ["Tilt", null],
  ],
  reserved: [[3, 2]],
});

test("the crossings of the failed rows and columns, reserved ones too, in order and once", () => {
  const { cells, says, caution, source } = accepted(
    crossingsToClear(shape, { rows: [3, 1, 3], columns: [2] }),
  );
  const sentence = inWords(says);
  expect(cells).toEqual([
    { row: 1, column: 2, name: "Start", reserved: false },
    { row: 3, column: 2, reserved: true },
  ]);
  expect(sentence).toBe(
    "Parts have failed on row 1, 3 and on column 2. They cross at row 1, column 2 (Start); row 3, column 2. Clear each of any lamp or coil supply before plugging in.",
  );
  expect(caution).toContain("licensed practice");
  expect(source).toBe("common practice, no source");
});

test("only rows: no crossing is singled out, and it says why", () => {
  const { cells, says } = accepted(crossingsToClear(shape, { rows: [2], columns: [] }));
  const sentence = inWords(says);
  expect(cells).toEqual([]);
  expect(sentence).toBe(
    "Parts have failed on row 2 and on no column. Any switch on that row may touch a supply.",
  );
  expect(words(accepted(crossingsToClear(shape, { rows: [], columns: [] })))).toBe(
    "No row and no column is recorded as failed.",
  );
});

test("a line the matrix does not have is refused", () => {
  expect(reasonOf(crossingsToClear(shape, { rows: [1], columns: [3] }))).toBe(
    "There is no column 3: the matrix has 2 columns, counted from 1.",
  );
});
