import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { explainByLines } from "../../../server/src/compute/matrix/by-lines";
import { matrixLines } from "../../../server/src/compute/matrix/proving";
import { reviewMatrix } from "../../../server/src/compute/matrix/review";
import {
  allCells,
  crossingKey,
  keysOf,
  type MatrixLine,
  type MatrixShape,
} from "../../../server/src/compute/matrix/shape";
import { words } from "../../support/words";
import { accepted, cells, drawn, names } from "./support";

const dead = (picture: string) => {
  const { shape, recorded } = drawn(picture);
  return accepted(reviewMatrix(shape, recorded)).dead;
};

describe("lines first", () => {
  test("a dead row and a dead column, as a technician records them", () => {
    const {
      lines,
      cells: single,
      undecided,
    } = dead(`
      oxoo
      oxoo
      xxxx
      oxoR`);
    expect(names(lines)).toBe("row 3, column 2");
    expect(lines.every(({ needed }) => needed)).toBe(true);
    expect([single, undecided]).toEqual([[], []]);
    expect(words(lines[1])).toContain("All 4 crossings tested on column 2 are dead");
  });

  test("one working crossing clears its whole line", () => {
    const { lines, cells: single } = dead("xxo\nooo\nooo");
    expect(names(lines)).toBe("");
    expect(cells(single)).toBe("1,1 1,2");
    expect(words(single[0])).toContain("is dead; its row and its column answer elsewhere");
  });

  test("an intermittent or a stuck crossing clears it from being dead as well", () => {
    expect(names(dead("xxi\nooo").lines)).toBe("");
    expect(names(dead("xxs\nooo").lines)).toBe("");
  });

  test("one dead crossing does not make a line, and says what is still open", () => {
    const { lines, cells: single } = dead("x..\noo.\n...");
    expect(names(lines)).toBe("");
    expect(cells(single)).toBe("1,1");
    expect(words(single[0])).toContain("its row answered nowhere else. Test another crossing");
  });

  test("reserved crossings neither clear nor condemn", () => {
    expect(names(dead("xxR\nooo\nooo").lines)).toBe("row 1");
  });
});

describe("what stays undecided", () => {
  test("a row whose tested crossings lie on dead columns, and the crossing that would tell", () => {
    const { lines, undecided } = dead("x.x.\nxoxo\nxoxo");
    expect(names(lines)).toBe("column 1, column 3");
    expect(undecided.map(({ line, test: cell }) => [names([line]), cells(cell ? [cell] : [])])).toEqual([
      ["row 1", "1,2"],
    ]);
  });

  test("only a crossing whose other line answers can tell", () => {
    const { undecided } = dead("x.x.\nx.xo\nx.xo");
    expect(undecided.map(({ test: cell }) => cells(cell ? [cell] : []))).toEqual(["1,4"]);
    const none = dead("x.xo\nx.xo\nx.xR\nx.xR").undecided;
    expect(none.map(({ line }) => names([line]))).toEqual(["row 3", "row 4"]);
    expect(words(none[0])).toContain("None of its untested crossings has a column known to answer");
  });

  test("rows and columns that explain it equally well are both named", () => {
    const { lines, undecided, nothingAnswers } = dead("xx..\nxx..\n..oo\n..oo");
    expect(lines).toHaveLength(2);
    expect(lines.every(({ needed }) => needed)).toBe(false);
    expect(undecided).toHaveLength(4);
    expect(undecided.every(({ test: cell }) => cell !== undefined)).toBe(true);
    expect(nothingAnswers).toBeUndefined();
  });

  test("when nothing answers the common cause comes first", () => {
    expect(dead("xx\nxx").nothingAnswers?.fact).toMatch(/^None of the 4 crossings tested answers\./);
  });
});

/** Fewest faults over all sets of lines that may be at fault, `but` one of them, by trying every one. */
function fewest(
  { rows, columns }: MatrixShape,
  marked: ReadonlySet<number>,
  tested: ReadonlySet<number>,
  but?: MatrixLine,
): number {
  const every = allCells({ rows, columns, reserved: [] });
  const may = matrixLines({ rows, columns, reserved: [] })
    .filter(({ kind, number }) => kind !== but?.kind || number !== but.number)
    .map(({ kind, number }) => every.filter((cell) => cell[kind] === number).map(crossingKey))
    .filter((line) => {
      const on = line.filter((key) => tested.has(key));
      return on.length >= 2 && on.every((key) => marked.has(key));
    });
  let best = marked.size;
  for (let set = 0; set < 1 << may.length; set += 1) {
    const chosen = may.filter((_, i) => set & (1 << i));
    const left = [...marked].filter((key) => !chosen.some((line) => line.includes(key)));
    best = Math.min(best, chosen.length + left.length);
  }
  return best;
}

test("no explanation has fewer faults, and `needed` means what it says", () => {
  const picture = fc
    .tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 4 }))
    .chain(([rows, columns]) =>
      fc.array(
        fc.string({ unit: fc.constantFrom(".", "o", "x", "x", "x"), minLength: columns, maxLength: columns }),
        { minLength: rows, maxLength: rows },
      ),
    );
  fc.assert(
    fc.property(picture, (rows) => {
      const { shape, recorded } = drawn(rows.join("\n"));
      const marked = keysOf(recorded.filter(({ result }) => result.state === "dead"));
      const tested = keysOf(recorded);
      const { lines, cells: single, notExcluded } = explainByLines(shape, marked, tested);
      expect(lines.length + single.length).toBe(fewest(shape, marked, tested));
      for (const line of lines) {
        const more = fewest(shape, marked, tested, line) > lines.length + single.length;
        expect(line.needed).toBe(more);
      }
      const explained = new Set([...lines.flatMap((line) => [...line.cells]), ...single]);
      expect([...explained].sort()).toEqual([...marked].sort());
      for (const line of notExcluded) {
        expect(lines.some(({ kind, number }) => kind === line.kind && number === line.number)).toBe(false);
      }
    }),
    { numRuns: 400 },
  );
});
