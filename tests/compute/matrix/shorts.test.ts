import { describe, expect, test } from "vitest";
import type { Recorded } from "../../../server/src/compute/matrix/results";
import { reviewMatrix } from "../../../server/src/compute/matrix/review";
import { words } from "../../support/words";
import { accepted, at, cells, names, reasonOf, showed } from "./support";

const shape = { rows: 4, columns: 4, reserved: [] };
const works = (row: number, column: number): Recorded => ({ row, column, result: { state: "works" } });
const stuck = (row: number, column: number): Recorded => ({ row, column, result: { state: "stuck" } });
const review = (recorded: Recorded[], held: Parameters<typeof reviewMatrix>[2] = []) =>
  accepted(reviewMatrix(shape, recorded, held));

describe("shorted lines", () => {
  test("two rows that answer together at every crossing", () => {
    const { shorts, phantoms } = review([showed([1, 1], [3, 1]), showed([3, 2], [1, 2]), works(2, 2)]);
    expect(shorts).toHaveLength(1);
    expect(shorts[0]).toMatchObject({ kind: "row", lines: [1, 3], verdict: "out-of-limits", against: [] });
    expect(words(shorts[0])).toMatch(/^Row 1 and row 3 answer together at 2 crossings, and nowhere alone/);
    expect([phantoms.suspects, phantoms.unexplained]).toEqual([[], []]);
  });

  test("two columns that answer together are shorted", () => {
    const { shorts } = review([showed([1, 1], [1, 2]), showed([2, 1], [2, 2])]);
    expect(shorts[0]).toMatchObject({ kind: "column", lines: [1, 2], verdict: "out-of-limits" });
  });

  test("once is not enough, and named once", () => {
    const { shorts, phantoms } = review([showed([1, 1], [3, 1])]);
    expect(shorts[0]).toMatchObject({ verdict: "suspect" });
    expect(words(shorts[0])).toContain("Test a second crossing on them");
    expect(phantoms.unexplained).toEqual([]);
  });

  test("a crossing that answers alone speaks against it", () => {
    const { shorts } = review([showed([1, 1], [3, 1]), showed([1, 2], [3, 2]), works(1, 3)]);
    expect(shorts[0]).toMatchObject({ verdict: "suspect", against: at([1, 3]) });
    expect(words(shorts[0])).toContain("alone at 1");
  });

  test("rows and columns shorted at once leave the far corner explained", () => {
    const { shorts, phantoms } = review([
      showed([1, 1], [2, 1], [1, 2], [2, 2]),
      showed([1, 3], [2, 3]),
      showed([3, 1], [3, 2]),
    ]);
    expect(shorts.map(({ kind, verdict }) => `${kind} ${verdict}`)).toEqual([
      "row out-of-limits",
      "column out-of-limits",
    ]);
    expect(phantoms.unexplained).toEqual([]);
  });

  test("a crossing on other lines than either is left unexplained, not forced into a pair", () => {
    const { shorts, phantoms } = review([showed([1, 1], [3, 3])]);
    expect(shorts).toEqual([]);
    expect(phantoms.unexplained.map(({ cell }) => cell)).toEqual(at([3, 3]));
  });
});

describe("stuck crossings", () => {
  test("crossings that answer with nothing bridged are told one by one and as a line", () => {
    const { stuck: report, dead } = review([
      stuck(1, 1),
      stuck(1, 2),
      works(2, 1),
      works(2, 2),
      stuck(3, 3),
      works(3, 1),
    ]);
    expect(names(report.lines)).toBe("row 1");
    expect(cells(report.cells)).toBe("3,3");
    expect(words(report.cells[0])).toContain("answers with nothing closed");
    expect([dead.lines, dead.cells]).toEqual([[], []]);
  });

  test("show in every test and make no pair", () => {
    expect(review([stuck(2, 1), showed([1, 1], [2, 1]), showed([3, 1], [2, 1])]).shorts).toEqual([]);
  });
});

describe("phantoms", () => {
  const three = at([1, 1], [1, 2], [2, 1]);

  test("the fourth corner points at the diode opposite", () => {
    const { phantoms } = review([], [{ closed: three, seen: at([1, 1], [1, 2], [2, 1], [2, 2]) }]);
    expect(phantoms.suspects).toHaveLength(1);
    expect(phantoms.suspects[0]).toMatchObject({ row: 1, column: 1, only: true });
    expect(words(phantoms.suspects[0])).toContain(
      "The crossing at row 2, column 2 showed although open, with 3 corners closed. The diode at row 1, column 1, the corner opposite, is missing or shorted.",
    );
  });

  test("nothing seen clears the diode that would have let it", () => {
    const { phantoms } = review([], [{ closed: three, seen: three }]);
    expect(phantoms.suspects).toEqual([]);
    expect(cells(phantoms.blocked)).toBe("1,1");
  });

  test("several ways round are narrowed by the tests that showed nothing", () => {
    const both = at([1, 1], [1, 2], [2, 1], [3, 2], [3, 1]);
    const wide = { closed: both, seen: [...both, ...at([2, 2])] };
    const open = review([], [wide]).phantoms;
    expect(cells(open.suspects)).toBe("1,1 3,1");
    expect(open.suspects.map(({ only }) => only)).toEqual([false, false]);
    const narrowed = review([], [wide, { closed: three, seen: three }]).phantoms;
    expect(cells(narrowed.suspects)).toBe("3,1");
    expect(narrowed.suspects[0]?.only).toBe(true);
  });

  test("stuck crossings are corners too", () => {
    const { phantoms } = review([stuck(1, 1), stuck(1, 2), works(3, 3), showed([2, 1], [2, 2])]);
    expect(phantoms.suspects.map(({ row, column, only }) => [row, column, only])).toEqual([[1, 1, true]]);
  });

  test("what no rectangle of the closed crossings explains is said to be unexplained", () => {
    const { phantoms } = review([], [{ closed: at([1, 1], [2, 2]), seen: at([1, 1], [2, 2], [3, 3]) }]);
    expect(phantoms.suspects).toEqual([]);
    expect(phantoms.unexplained).toEqual([
      { cell: { row: 3, column: 3 }, closed: at([1, 1], [2, 2]), diodes: [] },
    ]);
  });

  /** Currents followed by hand: forwards from column to row, backwards only where the diode is bad. */
  function shown(closed: readonly (readonly [number, number])[], bad: string): Set<string> {
    const seen = new Set<string>();
    for (const column of new Set(closed.map(([, c]) => c))) {
      const live = new Set([`c${column}`]);
      for (let grew = true; grew; ) {
        grew = false;
        for (const [r, c] of closed) {
          const forwards = live.has(`c${c}`) && !live.has(`r${r}`) && live.add(`r${r}`);
          const backwards =
            `${r},${c}` === bad && live.has(`r${r}`) && !live.has(`c${c}`) && live.add(`c${c}`);
          if (forwards || backwards) grew = true;
        }
      }
      for (const line of live) if (line.startsWith("r")) seen.add(`${line.slice(1)},${column}`);
    }
    return seen;
  }

  test("agrees with following the current: for each bad diode of a block of four, that diode and no other", () => {
    const block = [
      [1, 1],
      [1, 2],
      [2, 1],
      [2, 2],
    ] as const;
    for (const bad of block) {
      const held = block.map((open) => {
        const closed = block.filter((cell) => cell !== open);
        const seen = [...shown(closed, bad.join())].map(
          (text) => text.split(",").map(Number) as [number, number],
        );
        return { closed: at(...closed), seen: at(...seen) };
      });
      expect(cells(review([], held).phantoms.suspects)).toBe(bad.join());
    }
  });
});

describe("bad and odd input", () => {
  test("crossings outside the matrix are refused with their place", () => {
    expect(reasonOf(reviewMatrix(shape, [works(5, 1)]))).toContain(
      "row 5, column 1 is not in a matrix of 4 rows",
    );
    expect(reasonOf(reviewMatrix(shape, [showed([1, 1], [1, 9])]))).toContain("row 1, column 9");
    expect(reasonOf(reviewMatrix(shape, [], [{ closed: at([0, 1]), seen: [] }]))).toContain(
      "row 0, column 1",
    );
  });

  test("a reserved crossing that was exercised is named and not used", () => {
    const { reservedExercised, dead } = accepted(
      reviewMatrix({ ...shape, reserved: at([1, 1]) }, [
        { row: 1, column: 1, result: { state: "dead" } },
        { row: 1, column: 2, result: { state: "dead" } },
      ]),
    );
    expect(cells(reservedExercised)).toBe("1,1");
    expect(cells(dead.cells)).toBe("1,2");
  });

  test("one crossing recorded as working and as dead is intermittent: neither", () => {
    const { dead } = review([works(1, 1), { row: 1, column: 1, result: { state: "dead" } }]);
    expect(dead.cells).toEqual([]);
  });
});
