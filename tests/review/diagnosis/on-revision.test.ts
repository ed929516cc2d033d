// What is not on the board's revision is not suspected, and what says nothing accuses nothing.
import { describe, expect, test } from "vitest";
import { diagnosisOf } from "../../../server/src/review/diagnosis/of-log";
import { openDemo } from "../../support/demo";

async function diagnosed(revision: string, body: string) {
  const service = await openDemo();
  const uri = "mem:/demo/logs/revision.md";
  service.open(
    uri,
    `---\nmendlog: 1\nboard: regatta-controller\nrevision: ${revision}\nsymptoms: [counters-lost]\n---\n\n${body}`,
  );
  const view = service.view(uri);
  const found = view && diagnosisOf(view);
  if (!found) throw new Error("no diagnosis");
  return found;
}

const suspected = async (revision: string): Promise<readonly string[]> =>
  (await diagnosed(revision, "")).diagnosis.ranked.map(({ suspect }) => suspect.id);

describe("the revision of the board", () => {
  test("keeps the battery of revision A off a board of revision B", async () => {
    expect(await suspected("B")).toContain("C2");
    expect(await suspected("B")).not.toContain("BT1");
  });
  test("keeps the capacitor of revision B off a board of revision A", async () => {
    expect(await suspected("A")).toContain("BT1");
    expect(await suspected("A")).not.toContain("C2");
  });
  test("that the board file does not know leaves all of them in", async () => {
    expect(await suspected("C")).toEqual(expect.arrayContaining(["BT1", "C2"]));
  });
});

const found = async (reading: string): Promise<readonly string[]> => {
  const rows = `## Resistance\n\n| Ref | Reading |\n|---|---|\n| R8 | ${reading} |\n`;
  return (await diagnosed("B", rows)).log.input.findings.map(({ kind }) => kind);
};

describe("a resistor", () => {
  test("that reads its marked value, roughly written down, accuses nothing", async () => {
    expect(await found("1 k")).toEqual(["symptom"]);
  });
  test("that reads far too high does, roughly written down or not", async () => {
    expect(await found("2 k")).toEqual(["symptom", "part"]);
    expect(await found("1.31 k")).toEqual(["symptom", "part"]);
  });
});
