// What a row of work settles of what was found before it: what was done does, what is planned or was put back does not.
import { describe, expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { diagnosisReport } from "../../../server/src/features/diagnosis";
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

  test("stays suspected as it was while its replacement is only planned", async () => {
    for (const plan of ["to be replaced", "plan: replace", "to replace", "will be replaced"])
      expect(await suspects(BURNT + work(`U14 | ${plan} | |`)), plan).toEqual(await suspects(BURNT));
  });

  test("stands on the parts list as planned", async () => {
    expect(await parts(BURNT + work("U14 | to be replaced | |"))).toContain("planned 74LS04 U14");
  });

  test("is settled by work that was done", async () => {
    expect(await suspects(BURNT + work("U14 | replaced | 74LS04 |"))).toEqual([]);
    expect(await suspects(BURNT + work("U14 | cleaned | |"))).toEqual([]);
  });
});
