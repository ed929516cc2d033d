// What a tester said of a chip that was pulled, in the diagnosis.
import { describe, expect, test } from "vitest";
import { BUS_BOARD } from "../../support/boards";
import { diagnosedOn } from "../../support/diagnosed";
import { table } from "../../support/tables";

const LOW = table("Diode check", "Ref | Pin | Reading", "U12 | 1 | 0.118");
const tested = (...rows: readonly string[]) => table("Chip test", "Ref | Part | Result", ...rows);

const diagnosed = (body: string) => diagnosedOn(BUS_BOARD, body);

describe("a chip that failed by itself", () => {
  test("is accused before all others, of what the board reads as well", async () => {
    const before = await diagnosed(LOW);
    const after = await diagnosed(LOW + tested("U13 | 74LS04 | fail"));
    expect(before.result.ranked[0]?.suspect.id).toBe("U12");
    expect(after.result.ranked[0]?.suspect.id).toBe("U13");
    expect(after.share("U13")).toBeGreaterThan(0.9);
    expect(after.share("U12")).toBeLessThan(before.share("U12"));
    expect(after.result.conflicts.map(({ reason }) => reason)).toContain(
      "U13 failed a test out of circuit (fail).",
    );
  });

  test("is accused on a board that reads nothing wrong", async () => {
    expect((await diagnosed(tested("U13 | 74LS04 | bad"))).share("U13")).toBeGreaterThan(0.75);
  });

  test("is history once another stands in its place, and is not before", async () => {
    const work = (action: string) => `## Work done\n\n| Ref | Action |\n|---|---|\n| U13 | ${action} |\n`;
    const done = await diagnosed(tested("U13 | 74LS04 | fail") + work("replaced"));
    expect(done.result.ranked).toEqual([]);
    expect(done.waiting).toMatchObject([{ ref: "U13", what: ["U13's test out of circuit"] }]);
    const planned = await diagnosed(tested("U13 | 74LS04 | fail") + work("to be replaced"));
    expect(planned.result.ranked[0]?.suspect.id).toBe("U13");
  });
});

describe("a chip that passed", () => {
  test("is suspected less, and never cleared", async () => {
    const before = await diagnosed(LOW);
    const after = await diagnosed(LOW + tested("U12 | 74LS04 | pass"));
    expect(after.share("U12")).toBeLessThan(before.share("U12"));
    expect(after.share("U12")).toBeGreaterThan(before.share("U12") / 5);
    expect(after.share("U12")).toBeGreaterThan(0);
    const candidate = after.result.candidates.find(({ suspects }) => suspects[0]?.id === "U12");
    expect(candidate?.evidence.against).toContain(
      "U12 passed a test out of circuit. It may still fail warm, at speed or under its load.",
    );
  });

  test("accuses nothing by itself", async () => {
    const { result, input } = await diagnosed(tested("U12 | 74LS04 | pass"));
    expect(input.passedOutOfCircuit).toEqual(["U12"]);
    expect(result.candidates).toEqual([]);
  });

  test("says nothing of the chip that was fitted since", async () => {
    const { input } = await diagnosed(
      `${tested("U12 | 74LS04 | pass")}## Work done\n\n| Ref | Action |\n|---|---|\n| U12 | replaced |\n`,
    );
    expect(input.passedOutOfCircuit ?? []).toEqual([]);
  });

  test("and failed as well comes and goes: it stays accused", async () => {
    const { share } = await diagnosed(tested("U12 | 74LS04 | pass", "U12 | 74LS04 | fail"));
    expect(share("U12")).toBeGreaterThan(0.5);
  });
});

test("what leaves it open tells nothing, nor does a chip that the board does not have", async () => {
  const { input } = await diagnosed(tested("U12 | 74LS04 | intermittent", "U99 |  | fail"));
  expect(input.findings).toEqual([]);
  expect(input.passedOutOfCircuit ?? []).toEqual([]);
});
