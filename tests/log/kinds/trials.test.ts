// First power, test programs, outputs fired, play, heat and force: how each is judged, and what the diagnosis hears of it.
import { describe, expect, test } from "vitest";
import { diagnose } from "../../../server/src/compute/diagnosis";
import { fromLog } from "../../../server/src/review/diagnosis/from-log";
import { BOARD, SHOP } from "../../support/judged";
import { table } from "../../support/tables";
import { openAt } from "../../support/workspace";

const CODES = `codes:
  E 3: { title: Work memory, parts: [U1, U2] }
  "00": { title: end of the test, pass: true }
  E 9: { title: Clock, circuits: [clock] }
circuits:
  clock: { title: Clock generator }
symptoms:
  error-5: { title: Switch closed, shows: "E 5", circuits: [clock] }
`;

async function read(...tables: readonly string[]) {
  const { service, uri } = await openAt(
    `//- trial.board.yaml\n${BOARD}${CODES}//- mendlog.shop.yaml\n${SHOP}//- log.md\n---\nmendlog: 1\nboard: trial\n---\n\n${tables.join("")}$0`,
  );
  const view = service.view(uri)!;
  const source = fromLog({ doc: view.doc, front: view.front, ctx: view.ctx })!;
  const found = diagnose(source.input);
  return {
    kinds: view.doc.blocks.flatMap(({ block }) => block.tables.map(({ procedure }) => procedure.id)),
    told: service.findings(uri).map(({ code, severity, message }) => `${severity} ${code}: ${message}`),
    signs: source.findings.map(({ finding }) => (finding.kind === "sign" ? finding.sign : finding.kind)),
    first: found.ok ? found.ranked[0]?.suspect.id : undefined,
  };
}

describe("the headings", () => {
  test.each([
    ["First power", "first-power", "Rail | Limit | Current", "+5V | 2 A | 1.4 A"],
    ["First switch-on", "first-power", "Rail | Limit | Current", "+5V | 2 A | 1.4 A"],
    ["Test program", "fixture-test", "Code", "E 3"],
    ["Error codes", "fixture-test", "Code", "E 3"],
    ["Coils fired", "outputs-fired", "Coil | Result", "Gate | fires"],
    ["Play test", "play-test", "Game | Result", "game 1 | ok"],
    ["Tap test", "heat-and-tap", "Ref | Done | Result", "U1 | tap | no change"],
  ])("%s names %s", async (heading, id, head, row) => {
    expect((await read(table(heading, head, row))).kinds).toEqual([id]);
  });
});

describe("first power", () => {
  const HEAD = "Rail | Limit | Current | Voltage | Hot | Result";

  test("all of the limit, and a supply that shut down, are told; the limit is read from its column", async () => {
    const { told } = await read(table("First power", HEAD, "+5V | 2 A | 2 A | 4.850 V | | shut down"));
    expect(told).toEqual([
      expect.stringMatching(
        /^information rail-out-of-tolerance: \+5V draws 2 A, all that the current limit of 2 A/,
      ),
      expect.stringMatching(
        /^warning rail-out-of-tolerance: \+5V did not stay up at a limit of 2 A: shut down/,
      ),
    ]);
  });

  test("more than half as much again as usual is a question, and what is usual is none", async () => {
    const of = async (amps: string) =>
      (await read(table("First power", HEAD, `+5V | 4 A | ${amps} | 5.010 V | nothing | stays up`))).told;
    expect(await of("2.4 A")).toEqual([expect.stringMatching(/draws 2.4 A, far more than the 1.5 A/)]);
    expect(await of("1.6 A")).toEqual([]);
  });

  test("a limit that protects nothing is told", async () => {
    const { told } = await read(table("First power", HEAD, "+5V | 10 A | 1.4 A | 5.010 V | | stays up"));
    expect(told).toEqual([
      expect.stringMatching(/^information .*limit of 10 A is more than 3 times the 1.5 A/),
    ]);
  });

  test("what got hot is accused, what is only warm is not", async () => {
    const hot = await read(table("First power", HEAD, "+5V | 2 A | 1.4 A | 5.010 V | U6 | stays up"));
    expect(hot.signs).toEqual(["hot"]);
    expect(hot.first).toBe("U6");
    expect(hot.told).toEqual([expect.stringMatching(/^information part-hot: U6 got hot/)]);
    const mild = await read(
      table("First power", HEAD, "+5V | 2 A | 1.4 A | 5.010 V | U6 slightly | stays up"),
    );
    expect([mild.signs, mild.told]).toEqual([[], []]);
  });

  test("another part in its place makes the heat history", async () => {
    const { told } = await read(
      table("First power", HEAD, "+5V | 2 A | 1.4 A | 5.010 V | U6 | stays up"),
      table("Work done", "Ref | Action | Part", "U6 | replaced | 74LS32"),
    );
    expect(told.filter((one) => one.includes("part-hot"))).toEqual([]);
  });
});

describe("codes of a test program", () => {
  test("a code of the board file accuses its parts, and says which", async () => {
    const { told, signs, first } = await read(table("Test program", "Test | Code", "run 1 | E3"));
    expect(told).toEqual([
      expect.stringMatching(/^warning trial-failed: run 1: E 3 is "Work memory"; it points to U1, U2/),
    ]);
    expect(signs).toEqual(["test-code"]);
    expect(["U1", "U2"]).toContain(first);
  });

  test.each([
    ["a code without parts", "E 9"],
    ["a code that a symptom shows", "E 5"],
  ])("%s leads to its circuits", async (_what, code) => {
    const { told, signs } = await read(table("Test program", "Test | Code", `run 1 | ${code}`));
    expect(told).toEqual([expect.stringMatching(/trial-failed: .*it points to Clock generator/)]);
    expect(signs).toEqual(["symptom"]);
  });

  test.each(["00", "pass"])("%s disproves nothing and accuses nobody", async (code) => {
    const { told, signs } = await read(table("Test program", "Test | Code", `run 1 | ${code}`));
    expect([told, signs]).toEqual([[], []]);
  });

  test("a code that the file does not know is not judged and accuses nobody", async () => {
    const { told, signs } = await read(table("Test program", "Test | Code", "run 1 | E 33"));
    expect([told, signs]).toEqual([[], []]);
  });

  test("after a repair the same run without a code settles it", async () => {
    const { told, signs } = await read(
      table("Test program", "Test | Code", "run 1 | E 3"),
      table("Work done", "Ref | Action | Part", "U1 | replaced | 74LS04"),
      table("Test program after repair", "Test | Code", "run 1 | 00"),
    );
    expect(told.filter((one) => one.includes("trial-failed"))).toEqual([
      expect.stringMatching(/^hint trial-failed: .*Settled: 00 after the repair/),
    ]);
    expect(signs).not.toContain("test-code");
  });
});

describe("outputs and games", () => {
  test("an output that fails accuses its driver a little", async () => {
    const { told, signs, first } = await read(
      table("Coils fired", "Coil | Driver | Result", "Gate | Q1 | dead", "Bell | | fires"),
    );
    expect(told).toEqual([expect.stringMatching(/^warning trial-failed: Gate, Q1: dead/)]);
    expect(signs).toEqual(["part"]);
    expect(first).toBe("Q1");
  });

  test.each([
    ["fires", []],
    ["locked on", ["trial-failed"]],
    ["does not fire", ["trial-failed"]],
    ["weak", []],
  ])("%s", async (result, codes) => {
    const { told } = await read(table("Coils fired", "Coil | Result", `Gate | ${result}`));
    expect(told.map((one) => /\s([a-z-]+):/.exec(one)?.[1])).toEqual(codes);
  });

  test("a game that failed is told and accuses no part", async () => {
    const { told, signs } = await read(table("Play test", "Game | Result | Note", "game 1 | fail | resets"));
    expect(told).toEqual([expect.stringMatching(/^warning trial-failed: game 1: fail/)]);
    expect(signs).toEqual([]);
  });
});

describe("heat and force", () => {
  test("what reacts to cold is the part first, what reacts to tapping a joint of it", async () => {
    const cold = await read(
      table("Heat and tap test", "Ref | Done | Result", "U6 | cold spray | fault goes"),
    );
    expect([cold.signs, cold.first]).toEqual([["heat-reacts"], "U6"]);
    const tap = await read(table("Heat and tap test", "Ref | Done | Result", "U1 | tapping | fault comes"));
    expect(tap.signs).toEqual(["force-reacts"]);
    expect(tap.first).not.toBe("U1");
    expect(tap.first).toMatch(/U1/);
  });

  test("no change accuses nobody", async () => {
    const { told, signs } = await read(
      table("Heat and tap test", "Ref | Done | Result", "U6 | heat | no change", "U6 | flexing | same"),
    );
    expect([told, signs]).toEqual([[], []]);
  });
});
