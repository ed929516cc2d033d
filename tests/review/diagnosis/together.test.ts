// What readings say together reaches the diagnosis as one finding with its strength.
import { describe, expect, it } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { suspectName } from "../../../server/src/compute/diagnosis/suspects";
import { diagnosisOf } from "../../../server/src/review/diagnosis/of-log";
import { openAt } from "../../support/workspace";

async function diagnosed(body: string) {
  const { view } = await openAt(`${exampleLog(body)}$0`);
  const found = diagnosisOf(view);
  if (!found) throw new Error("no board");
  return found;
}

const table = (heading: string, readings: string): string =>
  `## ${heading}\n\n| Pin | Reading |\n|---|---|\n${readings
    .split(" ")
    .map((one, i) => `| ${i + 1} | ${one} |\n`)
    .join("")}\n`;

const GOOD = "0.571 0.553 0.568 0.551 0.573 0.556 0.001 0.552 0.569 0.555 0.572 0.550 0.567 0.312";
const OPEN = GOOD.replace(/\S+/g, "OL");

describe("a table that was measured wrong", () => {
  it("is one hypothesis, and measuring again is the next step", async () => {
    const { log, diagnosis, advice } = await diagnosed(table("Diode check U14", OPEN));
    expect(log.input.findings.map(({ kind }) => kind)).toEqual(["table"]);
    expect(diagnosis.conflicts).toHaveLength(1);
    expect(diagnosis.candidates[0]?.suspects.map(({ kind }) => kind)).toEqual(["misreading"]);
    expect(advice.best).toMatchObject({
      kind: "table-again",
      action: "Measure U14 again with the lead on ground",
    });
  });

  it("is history once the pins were read again", async () => {
    const { log } = await diagnosed(table("Diode check U14", OPEN) + table("Diode check U14 again", GOOD));
    expect(log.input.findings).toEqual([]);
    expect(log.input.withinLimits?.length).toBeGreaterThan(8);
  });

  it("accuses no part where the pins were counted from the other end", async () => {
    const reversed = GOOD.split(" ").reverse().join(" ");
    const { log, diagnosis } = await diagnosed(table("Diode check U14", reversed));
    expect(log.input.findings).toMatchObject([{ kind: "table", refs: ["U14"] }]);
    expect(log.input.withinLimits).toEqual([]);
    expect(diagnosis.ranked.map(({ suspect }) => suspectName(suspect))).toEqual([
      "the pins of U14: the pins were counted from the wrong end",
    ]);
  });
});

describe("a chip as a whole", () => {
  const dead = GOOD.split(" ")
    .map((one, i) => (i === 6 || i === 13 ? one : "OL"))
    .join(" ");

  it("is one conflict between the chip and what feeds it", async () => {
    const { log, diagnosis } = await diagnosed(table("Diode check U14", dead));
    expect(log.input.findings.map(({ kind }) => kind)).toEqual(["chip"]);
    expect(diagnosis.conflicts).toHaveLength(1);
    expect(diagnosis.ranked[0]?.suspect).toMatchObject({ kind: "part", ref: "U14" });
    expect(diagnosis.ranked.map(({ suspect }) => suspect.id)).toContain("joint U14.7");
  });

  it("is not made of three dead pins", async () => {
    const three = GOOD.replace("0.571", "OL").replace("0.568", "OL").replace("0.573", "OL");
    const { log } = await diagnosed(table("Diode check U14", three));
    expect(log.input.findings.map(({ kind }) => kind)).toEqual(["pin", "pin", "pin"]);
  });
});

describe("a rail", () => {
  it("that is held down accuses what is on its net", async () => {
    const { diagnosis } = await diagnosed(
      "## Resistance to ground\n\n| Rail | Reading |\n|---|---|\n| +5V | 0.3 ohm |\n",
    );
    const accused = diagnosis.ranked.flatMap(({ suspect }) => (suspect.kind === "part" ? suspect.ref : []));
    expect(accused).toEqual(expect.arrayContaining(["U14", "U15", "U20"]));
    // Not on that rail.
    expect(accused).not.toContain("Q5");
  });
});
