// A log's readings as a diagnosis takes them: what counts, what a later reading or a repair has made history.
import { describe, expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { diagnose } from "../../../server/src/compute/diagnosis";
import type { DiagnosisFinding } from "../../../server/src/compute/diagnosis/types";
import { type FromLog, fromLog } from "../../../server/src/review/diagnosis/from-log";
import { slice } from "../../../server/src/text/span";
import { demoText, openDemo } from "../../support/demo";
import { openAt } from "../../support/workspace";

async function taken(body: string, front = ""): Promise<FromLog & { readonly at: readonly string[] }> {
  const { view } = await openAt(`${exampleLog(body, front)}$0`);
  const log = fromLog(view);
  if (!log) throw new Error("no board");
  return { ...log, at: log.findings.map(({ span }) => slice(view.doc.text, span)) };
}

const found = async (body: string, front = ""): Promise<readonly DiagnosisFinding[]> =>
  (await taken(body, front)).input.findings;

const DIODE = "## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n";
const rows = (...lines: readonly string[]) => lines.map((line) => `| ${line} |\n`).join("");

describe("readings", () => {
  test("a drop that is too low or too high, with its place in the log", async () => {
    const { input, at } = await taken(DIODE + rows("U14 | 2 | 0.118", "U15 | 3 | OL", "U15 | 1 | 0.56"));
    expect(input.findings).toEqual([
      { kind: "pin", ref: "U14", pin: "2", verdict: "out-of-limits", direction: "low", how: "far" },
      { kind: "pin", ref: "U15", pin: "3", verdict: "out-of-limits", direction: "high" },
    ]);
    expect(at).toEqual(["0.118", "OL"]);
    expect(input.withinLimits).toEqual([{ ref: "U15", pin: "1" }]);
  });

  test("what cannot be a reading accuses nothing", async () => {
    const slips = rows(
      "U14 | 2 | -0.3",
      "U14 | 4 | O.58",
      "U14 | 6 | 557 ohm",
      "U14 | 15 | 0.1",
      "U41 | 3 | 0.1",
    );
    const { input } = await taken(DIODE + slips);
    expect(input.findings).toEqual([]);
    expect(input.withinLimits).toEqual([]);
  });

  test("two readings of one time both count, since either may be the slip", async () => {
    const { input } = await taken(DIODE + rows("U14 | 7 | 0.001", "U14 | 7 | 0.58"));
    expect(input.findings).toHaveLength(1);
    expect(input.withinLimits).toEqual([{ ref: "U14", pin: "7" }]);
  });

  test("a transistor's row is one finding of the part itself", async () => {
    const body = "## Transistor junctions\n\n| Ref | B-E | B-C | C-E |\n|---|---|---|---|\n";
    const [only, ...more] = await found(`${body}| Q1 | 0.004 | 0.003 | 0.002 |\n`);
    expect(more).toEqual([]);
    expect(only).toMatchObject({
      kind: "part",
      ref: "Q1",
      verdict: "out-of-limits",
      direction: "low",
      of: "Q1's junctions",
    });
    expect(await found(`${body}| Q1 | 0.671 | 0.664 | OL |\n`)).toEqual([]);
  });

  test("a resistor that reads high is that resistor; nothing across it can raise it", async () => {
    const [finding] = await found("## Resistance\n\n| Ref | Reading |\n|---|---|\n| R12 | 9.1 k |\n");
    expect(finding).toMatchObject({ kind: "part", ref: "R12", verdict: "out-of-limits" });
    const { view } = await openAt(
      `${exampleLog("## Resistance\n\n| Ref | Reading |\n|---|---|\n| R12 | 9.1 k |\n")}$0`,
    );
    const result = diagnose(fromLog(view)!.input);
    const members = result.ok ? result.conflicts[0]?.members.map(({ suspect }) => suspect.kind) : [];
    expect(members).toEqual(["part", "misreading"]);
  });

  test("states that contradict their gate, and gates that agree", async () => {
    const body = "## Logic states, powered\n\n| Ref | Pin | State |\n|---|---|---|\n";
    const { input } = await taken(
      body + rows("U14 | 1 | H", "U14 | 2 | H", "U14 | 3 | L", "U14 | 4 | H", "U14 | 6 | H"),
    );
    expect(input.findings).toEqual([
      { kind: "gate", ref: "U14", gate: expect.any(String), pins: ["1", "2"], steady: true },
    ]);
    expect(input.gatesAgreeing).toHaveLength(1);
  });

  test("a dead row accuses its net, and the rows that answer speak for their gates", async () => {
    const { input, at } = await taken(`## Switch matrix

| Row / column | 1    | 2    | 3    |
|--------------|------|------|------|
| 1            | ok   | ok   | ok   |
| 2            | dead | dead | dead |
| 3            | ok   | ok   | -    |
`);
    const outside = "the wiring of row 2 in the machine";
    expect(input.findings).toEqual([{ kind: "matrix-line", net: "SW_ROW_2", outside }]);
    expect(at).toEqual(["2"]);
    expect(input.gatesAgreeing?.map(({ ref }) => ref)).toEqual(["U30", "U30"]);
  });

  test("what was seen to be burnt, a memory that fails, a rail that is out", async () => {
    const kinds = await found(`## Inspection

| Item | Result | Note |
|------|--------|------|
| Q5   | burnt  |      |
| R12  | ok     |      |

## Memory test

| Ref | Wrote | Read | Result |
|-----|-------|------|--------|
| U32 | 5     | 1    | fail   |

## Supply rails, loaded

| Rail    | Reading | Ripple |
|---------|---------|--------|
| +9V raw | 9.1 V   | 6 V    |
`);
    expect(kinds).toMatchObject([
      { kind: "part", ref: "Q5" },
      { kind: "sign", sign: "memory-bit-once", refs: ["U32"], nets: ["D2"] },
      { kind: "sign", sign: "ripple", rail: "+9V raw" },
    ]);
  });

  test("a rail with the wrong sign is a slip of the pen", async () => {
    const body = "## Supply rails, loaded\n\n| Rail | Reading |\n|---|---|\n";
    expect((await taken(`${body}| +24V | -24 V |\n`)).input.findings).toEqual([]);
  });
});

describe("repairs", () => {
  const WORK = "\n## Work done\n\n| Ref | Action | Part |\n|---|---|---|\n| U14 | replaced | 74LS04 |\n";
  const AFTER = "\n## Diode check after repair\n\n| Ref | Pin | Reading |\n|---|---|---|\n";

  test("what was found of a part before it was replaced waits to be read again", async () => {
    const { input, waiting } = await taken(DIODE + rows("U14 | 2 | 0.118", "U15 | 3 | OL") + WORK);
    expect(input.findings).toMatchObject([{ ref: "U15", pin: "3" }]);
    expect(input.replaced).toEqual(["U14"]);
    expect(waiting).toEqual([{ ref: "U14", what: ["U14 pin 2 (1Y)"] }]);
  });

  test("so does a low reading of another chip on the same net, and a high one does not", async () => {
    const low = await taken(DIODE + rows("U15 | 1 | 0.118") + WORK);
    expect(low.input.findings).toEqual([]);
    expect(low.waiting).toEqual([{ ref: "U14", what: ["U15 pin 1 (1A)"] }]);
    const high = await taken(DIODE + rows("U15 | 1 | OL") + WORK);
    expect(high.input.findings).toHaveLength(1);
  });

  test("a reading after the repair takes the place of the one before, whatever it says", async () => {
    const good = await taken(DIODE + rows("U14 | 2 | 0.118") + WORK + AFTER + rows("U14 | 2 | 0.56"));
    expect(good.input.findings).toEqual([]);
    expect(good.input.withinLimits).toEqual([{ ref: "U14", pin: "2" }]);
    expect(good.waiting).toEqual([]);
    const bad = await taken(DIODE + rows("U14 | 2 | 0.56") + WORK + AFTER + rows("U14 | 2 | 0.118"));
    expect(bad.input.findings).toHaveLength(1);
    expect(bad.input.withinLimits).toEqual([]);
  });

  test("a heading that says again is later, repair or none", async () => {
    const again = DIODE.replace("Diode check", "Diode check again");
    const { input } = await taken(`${DIODE + rows("U14 | 2 | 0.118")}\n${again}${rows("U14 | 2 | 0.56")}`);
    expect(input.findings).toEqual([]);
  });

  test("any work on a part answers how it looked", async () => {
    const inspection = "## Inspection\n\n| Item | Result |\n|---|---|\n| U14 | cracked |\n";
    expect(await found(inspection)).toHaveLength(1);
    expect(await found(inspection + WORK.replace("replaced", "resoldered"))).toEqual([]);
  });
});

describe("the demo", () => {
  const whole = async (name: string, text = demoText(`mem:/demo/logs/${name}.md`)) => {
    const service = await openDemo();
    for await (const _ of service.index());
    const uri = `mem:/demo/logs/${name}.md`;
    service.open(uri, text);
    const view = service.view(uri);
    const log = view && fromLog(view);
    const result = log && diagnose(log.input);
    if (!log || !result?.ok) throw new Error(name);
    return { log, ranked: result.ranked.map(({ suspect }) => suspect.id), result };
  };
  const beforeWork = (name: string) => {
    const text = demoText(`mem:/demo/logs/${name}.md`);
    return whole(name, text.slice(0, text.indexOf("## Work done")));
  };

  test("2026-018, one row and one column dead: the driver and the receiver, both of them", async () => {
    const { ranked, result, log } = await whole("2026-018-controller");
    expect(ranked.slice(0, 2).sort()).toEqual(["U12", "U14"]);
    expect(result.candidates[0]?.suspects.map(({ id }) => id).sort()).toEqual(["U12", "U14"]);
    expect(result.candidates[0]?.probability).toBeGreaterThan(0.2);
    expect(log.input.history).toEqual(
      expect.arrayContaining([
        { ref: "U12", count: 1 },
        { ref: "U14", count: 1 },
      ]),
    );
    expect(log.powered).toBe(true);
    expect(log.problems).toEqual([expect.stringContaining("lane 3 never scores")]);
  });

  test("2026-013 as it came: the shorted driver, the tired reservoir, what went with them", async () => {
    const { ranked } = await beforeWork("2026-013-driver");
    expect(ranked.slice(0, 6)).toEqual(expect.arrayContaining(["C1", "Q3", "R13", "F4", "Q13"]));
  });

  test("2026-013 as it stands: what was replaced waits, the burnt plug and the buffer are left", async () => {
    const { ranked, log } = await whole("2026-013-driver");
    expect(ranked.slice(0, 2)).toEqual(["J5", "U2"]);
    expect(log.waiting.map(({ ref }) => ref)).toEqual(expect.arrayContaining(["Q3", "C1", "R13"]));
    expect(log.powered).toBe(false);
  });

  test("2026-011 as it came: the latch with two bad outputs before everything else", async () => {
    const { ranked } = await beforeWork("2026-011-controller");
    expect(ranked[0]).toBe("U17");
  });

  test("2026-004, finished: nothing is suspected any more", async () => {
    const { ranked, log } = await whole("2026-004-controller");
    expect(log.input.findings).toEqual([]);
    expect(ranked).toEqual([]);
  });
});
