import { expect, test } from "vitest";
import { BOARD, run } from "./memory";

const FILES = { "boards/example.board.yaml": BOARD };
const sheet = async (...args: readonly string[]) => run(["sheet", ...args], FILES);

test("a bench sheet of a board has its rails, its chips pin by pin and its matrices", async () => {
  const { code, out, err } = await sheet("boards/example.board.yaml", "--format", "json");
  expect(err).toBe("");
  expect(code).toBe(0);
  const made = JSON.parse(out);
  expect(made).toMatchObject({
    ofBoard: true,
    log: "example.board.yaml",
    title: "Bench sheet: Example board",
  });
  const tables: { heading: string; headers: string[]; rows: string[][]; line?: number }[] = made.tables;
  const headings = tables.map(({ heading }) => heading);
  expect(headings).toEqual(
    expect.arrayContaining(["Resistance to ground", "Supply rails, loaded", "Diode check U14"]),
  );
  expect(headings.filter((heading) => /Switch matrix/.test(heading))).toHaveLength(1);
  expect(tables.every(({ line }) => line === undefined)).toBe(true);
  const chip = tables.find(({ heading }) => heading === "Diode check U14");
  expect(chip?.rows).toHaveLength(14);
  expect(chip?.rows[0]?.[0]).toBe("U14 pin 1");
  // Nothing is filled in before it was measured.
  const reading = chip?.headers.findIndex((header) => /Reading/.test(header)) ?? -1;
  expect(reading).toBeGreaterThan(0);
  expect(chip?.rows.every((cells) => cells[reading] === "")).toBe(true);
});

test("the same by the board's id", async () => {
  const byFile = await sheet("boards/example.board.yaml", "--format", "html");
  expect(await sheet("example", "--format", "html")).toEqual(byFile);
  expect(byFile.out).toContain("for a log of the board that example.board.yaml describes");
  expect(byFile.out).not.toContain("of the log.</p>");
});

test("an id that no board has is told with those that there are", async () => {
  const { code, out, err } = await sheet("exmaple");
  expect([code, out]).toEqual([2, ""]);
  expect(err).toMatch(/exmaple is no board .*example/);
});

test.each(["report", "bill"])("a %s is of a log only", async (paper) => {
  const { code, err } = await run([paper, "boards/example.board.yaml"], FILES);
  expect(code).toBe(2);
  expect(err).toMatch(/is not a log/);
});
