import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { provingPlan } from "../../../server/src/compute/matrix/proving";
import { crossingKey, keysOf } from "../../../server/src/compute/matrix/shape";
import { accepted, cells, drawn, names, reasonOf } from "./support";

const plan = (picture: string) => {
  const { shape, recorded } = drawn(picture);
  return accepted(provingPlan(shape, recorded));
};

const blank = (rows: number, columns: number) => Array(rows).fill(".".repeat(columns)).join("\n");

describe("the diagonal", () => {
  test("of a square matrix nothing was tested of", () => {
    expect(cells(plan(blank(4, 4)).next)).toBe("1,1 2,2 3,3 4,4");
  });

  test("begins again past the corner", () => {
    expect(cells(plan(blank(2, 5)).next)).toBe("1,1 1,3 1,5 2,2 2,4");
    expect(cells(plan(blank(5, 2)).next)).toBe("1,1 2,2 3,1 4,2 5,1");
  });

  test("shifts around a reserved crossing without taking more", () => {
    const { next } = plan("....\n....\n....\n...R");
    expect(next).toHaveLength(4);
    expect(cells(next)).not.toContain("4,4");
    expect(next.filter(({ row, column }) => row === column)).toHaveLength(2);
  });
});

describe("the diagonal is kept where it can be", () => {
  test("a reserved first crossing shifts one neighbour, not all the rows below", () => {
    const { next } = plan("R...\n....\n....\n....");
    expect(next).toHaveLength(4);
    expect(cells(next.filter(({ row, column }) => row === column))).toBe("3,3 4,4");
  });
});

describe("what was recorded", () => {
  test("a crossing that works proves both its lines; the rest stay", () => {
    const { proven, unproven, next, sentence } = plan("o..\n.o.\n...");
    expect(names(proven)).toBe("row 1, row 2, column 1, column 2");
    expect(names(unproven)).toBe("row 3, column 3");
    expect(cells(next)).toBe("3,3");
    expect(sentence).toContain("One crossing covers them: row 3, column 3.");
  });

  test("dead, stuck and intermittent crossings prove nothing", () => {
    expect(names(plan("x.\n.s").proven)).toBe("");
    expect(names(plan("i.\n.o").proven)).toBe("row 2, column 2");
  });

  test("an unproven line may be covered together with a proven one", () => {
    expect(cells(plan("oo\n..").next)).toBe("2,2");
    expect(cells(plan("ooo\nxoo\n.R.").next)).toBe("3,3");
  });

  test("nothing is left once every line has answered", () => {
    const { next, unproven, sentence } = plan("o.\n.o");
    expect([next, unproven]).toEqual([[], []]);
    expect(sentence).toBe("Every row and every column has answered at a crossing that works.");
  });
});

describe("a line that cannot be proven", () => {
  test("since all its crossings are reserved", () => {
    const { unprovable, next } = plan("...\nRRR\n...");
    expect(names(unprovable.map(({ line }) => line))).toBe("row 2");
    expect(unprovable[0]).toMatchObject({ because: "reserved" });
    expect(unprovable[0]?.sentence).toMatch(/^Row 2 cannot be proven here: all its crossings are reserved/);
    expect(next).toHaveLength(3);
  });

  test("since none of its tested crossings works and no other is left", () => {
    const { unprovable } = plan("xR\no.");
    expect(unprovable.map(({ line, because }) => [line.kind, line.number, because])).toEqual([
      ["row", 1, "none-works"],
    ]);
  });
});

test("the sentence names nets and switches", () => {
  const { shape } = drawn("..\n..");
  const named = {
    ...shape,
    rowNames: ["SW_ROW_1", "SW_ROW_2"],
    columnNames: ["SW_COL_1", "SW_COL_2"],
    cellNames: [
      ["Coin", "Start"],
      ["Tilt", null],
    ],
  };
  const { sentence } = accepted(provingPlan(named, []));
  expect(sentence).toBe(
    "Not yet exercised: row 1 (SW_ROW_1), row 2 (SW_ROW_2), column 1 (SW_COL_1) and column 2 (SW_COL_2). 2 crossings cover them: row 1, column 1 (Coin); row 2, column 2.",
  );
});

test.each([
  ["no rows", { rows: 0, columns: 4, reserved: [] }, "A matrix has 1 to 32 rows and columns"],
  ["too many columns", { rows: 8, columns: 33, reserved: [] }, "33 columns are given"],
  ["half a row", { rows: 2.5, columns: 4, reserved: [] }, "2.5 rows"],
  [
    "reserved outside",
    { rows: 2, columns: 2, reserved: [{ row: 3, column: 1 }] },
    "The reserved crossing row 3, column 1 is not in a matrix of 2 rows and 2 columns",
  ],
])("refuses %s", (_, shape, reason) => {
  expect(reasonOf(provingPlan(shape, []))).toContain(reason);
});

/** Size of the smallest set of allowed crossings on every coverable unproven line, by trying all sets. */
function smallest(allowed: readonly { row: number; column: number }[], lines: readonly string[]): number {
  const covers = allowed.map(({ row, column }) =>
    lines.reduce(
      (mask, line, i) => mask | (line === `row ${row}` || line === `column ${column}` ? 1 << i : 0),
      0,
    ),
  );
  const all = covers.reduce((a, b) => a | b, 0);
  let best = Number.POSITIVE_INFINITY;
  const go = (from: number, mask: number, used: number): void => {
    if (mask === all) best = Math.min(best, used);
    if (used + 1 >= best) return;
    for (let i = from; i < covers.length; i += 1) {
      if ((covers[i]! | mask) !== mask) go(i + 1, mask | covers[i]!, used + 1);
    }
  };
  go(0, 0, 0);
  return best;
}

const picture = (most: number) =>
  fc
    .tuple(fc.integer({ min: 1, max: most }), fc.integer({ min: 1, max: most }))
    .chain(([rows, columns]) =>
      fc.array(
        fc.string({
          unit: fc.constantFrom(".", ".", ".", "R", "o", "x"),
          minLength: columns,
          maxLength: columns,
        }),
        {
          minLength: rows,
          maxLength: rows,
        },
      ),
    )
    .map((lines) => lines.join("\n"));

test("no smaller plan exists: every set of crossings tried on small matrices", () => {
  fc.assert(
    fc.property(picture(4), (text) => {
      const { shape, recorded } = drawn(text);
      const { next, unproven } = accepted(provingPlan(shape, recorded));
      const taken = new Set([...keysOf(shape.reserved), ...keysOf(recorded)]);
      const allowed = Array.from({ length: shape.rows * shape.columns }, (_, i) => ({
        row: Math.floor(i / shape.columns) + 1,
        column: (i % shape.columns) + 1,
      })).filter((cell) => !taken.has(crossingKey(cell)));
      expect(next).toHaveLength(
        smallest(
          allowed,
          unproven.map(({ kind, number }) => `${kind} ${number}`),
        ),
      );
    }),
    { numRuns: 300 },
  );
});

test("a plan covers every line that can be, and never a reserved or a tested crossing", () => {
  fc.assert(
    fc.property(picture(32), (text) => {
      const { shape, recorded } = drawn(text);
      const { next, unproven, unprovable } = accepted(provingPlan(shape, recorded));
      const taken = new Set([...keysOf(shape.reserved), ...keysOf(recorded)]);
      expect(next.filter((cell) => taken.has(crossingKey(cell)))).toEqual([]);
      const covered = new Set(next.flatMap(({ row, column }) => [`row ${row}`, `column ${column}`]));
      const left = unproven.filter(({ kind, number }) => !covered.has(`${kind} ${number}`));
      expect(names(left)).toBe(names(unprovable.map(({ line }) => line)));
    }),
    { numRuns: 60 },
  );
});
