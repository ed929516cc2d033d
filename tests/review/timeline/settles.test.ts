// What a row of work settles of what was found before it: what was done does, what is planned or was put back does not.
import { describe, expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { diagnosisReport } from "../../../server/src/features/shared/diagnosis";
import { partsList } from "../../../server/src/review/parts/list";
import { openAt } from "../../support/workspace";

const BURNT = "## Inspection\n\n| Ref | Result |\n|---|---|\n| U14 | burnt |\n\n";
const work = (...rows: readonly string[]) =>
  `## Work done\n\n| Ref | Action | Part | Note |\n|---|---|---|---|\n${rows.map((row) => `| ${row} |\n`).join("")}\n`;

const view = async (body: string) => (await openAt(`${exampleLog(body)}$0`)).view;
/** "U14 85 %" for each suspect, the first first. */
async function suspects(body: string): Promise<string[]> {
  const report = diagnosisReport(await view(body), 10);
  return (report?.suspects ?? []).map(({ name, share }) => `${name} ${Math.round(share * 100)} %`);
}
const parts = async (body: string) => {
  const { suggested, fitted } = partsList(await view(body));
  return [...suggested, ...fitted].map(({ state, part, refs }) => `${state} ${part} ${refs.join(" ")}`);
};

describe("a part that looks burnt", () => {
  test("is suspected before anything was done", async () => {
    expect(await suspects(BURNT)).toMatchObject([expect.stringMatching(/^U14 8\d %$/)]);
  });

  test.each(["to be replaced", "plan: replace", "to replace", "will be replaced"])(
    "stays suspected as it was while its replacement is only planned: %s",
    async (plan) => {
      expect(await suspects(BURNT + work(`U14 | ${plan} | |`))).toEqual(await suspects(BURNT));
    },
  );

  test("stands on the parts list as planned", async () => {
    expect(await parts(BURNT + work("U14 | to be replaced | |"))).toContain("planned 74LS04 U14");
  });

  test("is settled by work that was done", async () => {
    expect(await suspects(BURNT + work("U14 | replaced | 74LS04 |"))).toEqual([]);
    expect(await suspects(BURNT + work("U14 | cleaned | |"))).toEqual([]);
  });

  test.each([
    ["said in the note", work("U14 | swapped for a known-good one | 74LS04 | no change, put back")],
    [
      "said in the next row",
      work("U14 | swapped for a known-good one | 74LS04 |", "U14 | old one put back | |"),
    ],
    [
      "said in the next table",
      work("U14 | swapped for a known-good one | 74LS04 |") + work("U14 | old one put back | |"),
    ],
  ])("stays suspected where another was tried and the burnt one put back, %s", async (_where, tried) => {
    expect(await suspects(BURNT + tried)).toEqual(await suspects(BURNT));
  });
});

const READ = "## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 4 | 0.02 |\n\n";
const found = async (body: string, front = "") => {
  const { service, uri } = await openAt(`${exampleLog(body, front)}$0`);
  return service.findings(uri).map(({ code, severity }) => `${code} ${severity}`);
};

describe("a part that was tried and put back", () => {
  const TRIED = work("U14 | swapped for a known-good one | 74LS04 | no change, put back");

  test("was not fitted", async () => {
    expect(await parts(TRIED)).toEqual([]);
    expect(await parts(work("U14 | swapped for a known-good one | 74LS04 |"))).toEqual(["fitted 74LS04 U14"]);
    const { service, uri } = await openAt(`${exampleLog(TRIED)}$0`);
    const report = await service.report(uri, "md");
    expect(report).toContain("no change, put back");
    expect(report).not.toContain("Parts fitted");
  });

  test("leaves a reading that accuses the old one standing", async () => {
    const replaced = work("U14 | replaced | 74LS04 |");
    // That nothing changed with another one speaks against the part, and does not take the blame off it.
    const [first] = await suspects(READ + TRIED);
    expect(first).toMatch(/^U14 /);
    expect(Number(/\d+/.exec(first!.slice(4)))).toBeLessThan(
      Number(/\d+/.exec((await suspects(READ)).at(0)!.slice(4))),
    );
    expect(await suspects(READ + replaced)).toEqual([]);
  });

  test("need not be measured, and a part taken out and put back leaves no empty place", async () => {
    expect(await found(TRIED, "stage: proving\n")).not.toContain("replaced-not-retested warning");
    expect(await found(work("U14 | removed | | "))).toContain("removed-and-not-replaced information");
    expect(await found(work("U14 | removed | | ", "U14 | put back | |"))).not.toContain(
      "removed-and-not-replaced information",
    );
  });

  test("is not what its readings below are judged by", async () => {
    const other = (note: string) => work(`U14 | swapped | 74HC04 | ${note}`) + READ.replace("0.02", "0.56");
    const boardAt = async (body: string) => {
      const { ctx, doc } = await view(body);
      const last = doc.blocks.at(-1)!.block;
      return (ctx.later?.(last) ?? ctx).board?.value.parts.get("U14")?.device;
    };
    expect(await boardAt(other(""))).toBe("74HC04");
    expect(await boardAt(other("put back"))).toBe("74LS04");
    const later = work("U14 | old one put back | |") + READ;
    expect(await boardAt(other("") + later)).toBe("74LS04");
    expect(await boardAt(other("") + work("U15 | put back | |") + READ)).toBe("74HC04");
  });
});

describe("planned work", () => {
  test("is not the work that a stage of proving calls for", async () => {
    const planned = work("U14 | to be replaced | |");
    expect(await found(READ + planned, "stage: proving\n")).toContain("stage-ahead-of-evidence warning");
    expect(await found(READ + planned + work("J3 | reflowed | |"), "stage: proving\n")).not.toContain(
      "stage-ahead-of-evidence warning",
    );
  });

  test("does not take a chip off the board", async () => {
    const low = READ.replace("| 4 | 0.02 |", "| 2 | 0.118 |");
    expect(await suspects(work("U15 | to be removed | |") + low)).toEqual(await suspects(low));
    expect(await suspects(work("U15 | removed | |") + low)).not.toEqual(await suspects(low));
  });

  test("stands between no two readings: one before it and one after it were taken at one time", async () => {
    const again = READ.replace("0.02", "0.56");
    expect(await found(READ + work("U14 | to be replaced | |") + again)).toContain(
      "duplicate-reading warning",
    );
    expect(await found(READ + work("U14 | reflowed | |") + again)).toContain("diode-out-of-window hint");
    expect(await found(READ + work("U14 | to be replaced | |") + again)).not.toContain(
      "diode-out-of-window hint",
    );
  });
});
