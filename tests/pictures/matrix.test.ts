import { describe, expect, test } from "vitest";
import { CELL_MARKS, CELL_STATES, type CellState, cellId } from "../../server/src/pictures/marks";
import { type MatrixInput, matrixPicture, matrixWords } from "../../server/src/pictures/matrix";
import { WIDEST_PICTURE } from "../../server/src/pictures/svg";
import { checkSafe, elementsOf, textsOf } from "./strict-xml";

const names = (prefix: string, count: number) => Array.from({ length: count }, (_, i) => `${prefix}${i + 1}`);

const matrix = (
  rows: number,
  columns: number,
  state: (row: number, column: number) => CellState,
): MatrixInput => ({
  title: "Switch matrix",
  rows: names("ROW_", rows),
  columns: names("COL_", columns),
  cells: Array.from({ length: rows }, (_, r) =>
    Array.from({ length: columns }, (_, c) => state(r + 1, c + 1)),
  ),
});

const drawn = (input: MatrixInput): string => {
  const made = matrixPicture(input);
  if (!made) throw new Error("No picture");
  expect(made.width).toBeLessThanOrEqual(WIDEST_PICTURE);
  return made.svg;
};

const marksIn = (svg: string, state: CellState, prefix = "#") =>
  elementsOf(svg).filter(
    ({ name, attributes }) => name === "use" && attributes.get("href") === `${prefix}${cellId(state)}`,
  );

describe("the grid", () => {
  test.each([
    [1, 1],
    [8, 8],
    [3, 16],
    [7, 16],
    [14, 8],
  ])("of %d by %d is safe, labelled, and has a mark at every crossing", (rows, columns) => {
    const svg = drawn(
      matrix(rows, columns, (r, c) => CELL_STATES[(r * 3 + c) % CELL_STATES.length] ?? "works"),
    );
    checkSafe(svg);
    const count = CELL_STATES.reduce((sum, state) => sum + marksIn(svg, state).length, 0);
    expect(count).toBe(rows * columns);
    expect(textsOf(svg)).toEqual(expect.arrayContaining([`ROW_${rows}`, String(columns)]));
  });

  test.each([
    [0, 4],
    [4, 0],
    [17, 4],
    [16, 16],
    [4, 32],
  ])("of %d by %d is not drawn", (rows, columns) => {
    expect(matrixPicture(matrix(rows, columns, () => "works"))).toBeUndefined();
  });

  test("puts a result where its row and its column cross", () => {
    const svg = drawn(matrix(4, 4, (r, c) => (r === 2 && c === 3 ? "dead" : "works")));
    const [dead] = marksIn(svg, "dead");
    const label = (text: string) =>
      elementsOf(svg).filter((each) => each.name === "text" && each.text === text);
    expect(dead?.attributes.get("x")).toBe(label("3").at(-1)?.attributes.get("x"));
    expect(Number(dead?.attributes.get("y"))).toBe(Number(label("ROW_2")[0]?.attributes.get("y")) - 4);
  });

  test("names columns upright only where their names say more than a count", () => {
    const input = matrix(2, 3, () => "works");
    expect(textsOf(drawn(input))).toContain("COL_1 to 3");
    const own = drawn({ ...input, columns: ["LEFT", "MID", "RIGHT"] });
    expect(textsOf(own)).toEqual(expect.arrayContaining(["LEFT", "MID", "RIGHT"]));
    checkSafe(own);
  });

  test("frames the crossing asked about, and none outside", () => {
    const input = matrix(4, 4, () => "works");
    const plain = drawn(input);
    expect(drawn({ ...input, here: { row: 2, column: 2 } })).not.toBe(plain);
    expect(drawn({ ...input, here: { row: 5, column: 2 } })).toBe(plain);
  });
});

describe("results", () => {
  const svg = drawn(matrix(1, CELL_STATES.length, (_, c) => CELL_STATES[c - 1] ?? "works"));

  test("have a letter and a shape of their own, whatever the colours", () => {
    const letters = CELL_STATES.map((state) => CELL_MARKS[state].letter);
    expect(new Set(letters).size).toBe(letters.length);
    expect(new Set(CELL_STATES.map((state) => CELL_MARKS[state].glyph)).size).toBe(letters.length);
    for (const state of CELL_STATES) {
      const own = svg.slice(svg.indexOf(`<g id="${cellId(state)}">`));
      expect(own.slice(0, own.indexOf("</text>"))).toMatch(new RegExp(`>${CELL_MARKS[state].letter}$`));
    }
    expect(svg).toMatch(/<pattern id="h"/);
  });

  test("stand in the legend in words, only those that occur", () => {
    for (const state of CELL_STATES) {
      expect(textsOf(svg)).toContain(CELL_MARKS[state].words);
      expect(marksIn(svg, state, "#k")).toHaveLength(1);
    }
    const few = textsOf(drawn(matrix(2, 2, () => "works")));
    expect(few).toContain("works");
    expect(few).not.toContain("dead");
  });

  test("left out are untested", () => {
    expect(marksIn(drawn({ ...matrix(2, 2, () => "works"), cells: [["works"]] }), "untested")).toHaveLength(
      3,
    );
  });
});

test("the words count every crossing and name those that do not simply work", () => {
  const words = matrixWords(
    matrix(3, 3, (r, c) => (r === 2 ? "dead" : r === 3 && c === 3 ? "reserved" : "works")),
  );
  expect(words).toBe(
    "Switch matrix, 3 rows by 3 columns. dead: 3 (row,column 2,1; 2,2; 2,3). reserved: do not bridge: 1 (row,column 3,3). works: 5 of 9.",
  );
});

test("markup in names stays text", () => {
  const evil = "<script>x</script>";
  const svg = drawn({ title: evil, rows: [evil, "a"], columns: [evil, '"&'], cells: [] });
  checkSafe(svg);
  expect(svg).not.toMatch(/<\/?script/);
});

test("the same matrix is the same text", () => {
  const input = matrix(8, 8, (r, c) => (r === c ? "dead" : "works"));
  expect(drawn(structuredClone(input))).toBe(drawn(input));
});
