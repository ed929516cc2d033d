// What the kinds of evidence prove: outputs fired one by one, play in a machine, codes of a test program; and what never does.
import { describe, expect, test } from "vitest";
import { provingReview } from "../../../server/src/review/proving";
import { boardHead, logOf } from "../../support/boards";
import { openWorld } from "../../support/workspace";

const BOARD = `${boardHead()}rails: { "+24V": { nominal: 24 V, tolerance: 10 %, source: invented } }
parts: { Q5: { device: TIP102 }, Q6: { device: TIP102 }, U7: { device: "2114" }, U14: { device: 74LS04 } }
nets: { L_ROW_1: [Q5.1], L_ROW_2: [Q6.1], L_COL_1: [U14.2, U7.9], L_COL_2: [U14.4] }
coils:
  - { title: Gate coil, driver: Q5, resistance: 12 ohm, supply: "+24V", source: invented }
  - { title: Bell coil, driver: Q6, resistance: 12 ohm, supply: "+24V", source: invented }
matrices:
  lamps:
    kind: lamp
    title: Lamps
    rows: [L_ROW_1, L_ROW_2]
    columns: [L_COL_1, L_COL_2]
    cells: [[Red, Green], [Blue, White]]
codes:
  "00": { title: no fault, pass: true }
  "E 3": { title: work memory, parts: [U7] }
proving:
  - { id: coils, title: Every coil, procedure: coil-resistance }
  - { id: lamps, title: Every lamp, procedure: lamp-matrix, matrix: lamps }
  - { id: program, title: Test program without a code, procedure: fixture-test }
  - { id: play, title: Games played, procedure: play-test }
  - { id: fired, title: Outputs one by one, procedure: outputs-fired }
  - { id: up, title: Holds the supply up, procedure: first-power }
  - { id: chips, title: Chips tested, procedure: chip-test }
  - { id: tracks, title: Tracks whole, procedure: continuity }
`;

async function reviewOf(...tables: readonly string[]) {
  const { service } = await openWorld(logOf(BOARD, tables.join("\n")));
  const view = service.view("mem:/ws/log.md");
  if (!view) throw new Error("no log");
  const { items, beside } = provingReview(view.doc, view.ctx);
  const of = (id: string) => {
    const found = items.find(({ item }) => item.id === id);
    if (!found) throw new Error(`no item ${id}`);
    return found;
  };
  return { of, beside };
}

const table = (heading: string, header: string, ...rows: readonly string[]): string =>
  [`## ${heading}`, "", header, header.replace(/[^|]+/g, "---"), ...rows, ""].join("\n");
const fired = (...rows: readonly string[]) => table("Coils fired", "| Output | Ref | Result |", ...rows);
const program = (...rows: readonly string[]) => table("Test program", "| Test | Code |", ...rows);
const played = (...rows: readonly string[]) => table("Play test", "| Item | Result | Note |", ...rows);
const coils = (...rows: readonly string[]) => table("Coil resistance", "| Ref | Reading |", ...rows);
const WORK = table("Work done", "| Ref | Action |", "| U14 | clean |");

describe("coils and lamps fired one by one", () => {
  test("each coil by its name or its driver: all of them prove the coils", async () => {
    const one = await reviewOf(fired("| Gate coil | | fires |"));
    expect(one.of("coils")).toMatchObject({
      state: "unproven",
      coverage: { done: 1, total: 2, missing: ["Bell coil"] },
    });
    expect(one.of("coils").wants).toContain("Bell coil");
    const all = await reviewOf(fired("| gate coil | | fires |", "| 2 | Q6 | fires |"));
    expect(all.of("coils")).toMatchObject({ state: "proven", coverage: { done: 2, total: 2 } });
    expect(all.of("coils").said[0]?.text).toContain('"Coils and lamps fired" shows 2 of 2 coils fired');
    expect(all.of("fired").state).toBe("proven");
  });

  test("one that is dead fails the coils, and no item that it is not of", async () => {
    const { of } = await reviewOf(fired("| Gate coil | | fires |", "| Bell coil | Q6 | dead |"));
    expect(of("coils").state).toBe("failed");
    expect(of("coils").said[0]?.text).toBe('Q6 reads "dead"');
    expect(of("lamps").state).toBe("unproven");
  });

  test("fired before the last repair, or of a name that nobody knows, says nothing", async () => {
    const before = await reviewOf(fired("| Gate coil | | fires |", "| Bell coil | | fires |"), WORK);
    expect(before.of("coils")).toMatchObject({ state: "unproven", coverage: { done: 0 } });
    const strange = await reviewOf(fired("| Flag coil | | dead |"));
    expect(strange.of("coils")).toMatchObject({ state: "unproven", coverage: { done: 0 } });
  });

  test("their resistance alone is not even said for them, and speaks against them", async () => {
    const sound = await reviewOf(coils("| Q5 | 12 ohm |", "| Q6 | 12 ohm |"));
    expect(sound.of("coils")).toMatchObject({ state: "unproven", said: [], coverage: { done: 0 } });
    expect(sound.of("coils").wants).toContain("cannot prove");
    const shorted = await reviewOf(
      coils("| Q5 | 0.3 ohm |"),
      fired("| Gate coil | | fires |", "| Bell coil | | fires |"),
    );
    expect(shorted.of("coils").state).toBe("failed");
  });

  test("lamps count for the rows and columns of their crossings, with those of the matrix table", async () => {
    const two = await reviewOf(fired("| Red | | fires |", "| White | | fires |"));
    expect(two.of("lamps")).toMatchObject({ state: "proven", coverage: { done: 4, total: 4 } });
    expect(two.of("coils").coverage).toMatchObject({ done: 0 });
    const half = await reviewOf(fired("| Red | | fires |"));
    expect(half.of("lamps")).toMatchObject({ state: "unproven", coverage: { done: 2, total: 4 } });
    expect(half.of("lamps").wants).toContain("row 2");
    const matrix = table("Lamp matrix", "| Row | Column | Result |", "| 2 | 2 | ok |");
    expect((await reviewOf(matrix, fired("| Red | | fires |"))).of("lamps").state).toBe("proven");
    const dark = await reviewOf(matrix, fired("| Red | | fires |", "| Green | | dead |"));
    expect(dark.of("lamps").state).toBe("failed");
  });
});

describe("a test program", () => {
  test("proves its own item where it ends without a code, or with one that says so", async () => {
    expect((await reviewOf(program("| 1 | ok |"))).of("program").state).toBe("proven");
    expect((await reviewOf(program("| 1 | 00 |"))).of("program").state).toBe("proven");
  });

  test("a code of the board file fails it, one that nobody knows proves nothing", async () => {
    const { of } = await reviewOf(program("| 1 | ok |", "| 2 | E 3 |"));
    expect(of("program").state).toBe("failed");
    expect((await reviewOf(program("| 1 | E 9 |"))).of("program").state).toBe("unproven");
  });

  test("a run named as another item fails that, and never proves it", async () => {
    expect((await reviewOf(program("| Every lamp | E 3 |"))).of("lamps").state).toBe("failed");
    const { of, beside } = await reviewOf(program("| Every lamp | ok |", "| Warm | ok |"));
    expect(of("lamps").state).toBe("unproven");
    expect(beside).toEqual([]);
  });
});

describe("play in a machine", () => {
  test("proves what it names, and its own item", async () => {
    const { of, beside } = await reviewOf(played("| Lamps | ok | |", "| Third game | ok | |"));
    expect(of("lamps").state).toBe("proven");
    expect(of("lamps").said[0]?.text).toBe('the table "Play in a machine" says "ok"');
    expect(of("play").state).toBe("proven");
    expect(of("coils").state).toBe("unproven");
    expect(beside).toEqual([]);
  });

  test("what failed there has failed, whatever the bench says", async () => {
    const { of } = await reviewOf(
      fired("| Gate coil | | fires |", "| Bell coil | | fires |"),
      played("| Every coil | fail | after an hour |"),
    );
    expect(of("coils")).toMatchObject({ state: "failed", reason: "after an hour" });
    expect(of("play").state).toBe("failed");
  });
});

test("first power, chips out of circuit and continuity prove nothing by themselves", async () => {
  const { of } = await reviewOf(
    table("First power", "| Rail | Limit | Current | Result |", "| +24V | 1 A | 0.2 A | stays up |"),
    table("Chip test", "| Ref | Result |", "| U7 | pass |"),
    table("Continuity", "| From | To | Reading |", "| U7.9 | U14.2 | beep |"),
  );
  for (const id of ["up", "chips", "tracks"]) {
    expect(of(id).state).toBe("unproven");
    expect(of(id).wants).toContain("proves nothing by itself");
  }
});
