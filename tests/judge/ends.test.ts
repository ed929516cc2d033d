// Continuity rows against the nets of a board, and against what they expect themselves.
import { describe, expect, test } from "vitest";
import { fromLog } from "../../server/src/review/diagnosis/from-log";
import { BOARD, judgeTable, SHOP } from "../support/judged";
import { openAt } from "../support/workspace";

const WITH_PARTS = `${BOARD.replace(
  "  J1: { value: connector }\n",
  "  J1: { value: connector }\n  F1: { value: 2 A }\n  L1: { value: 10 uH }\n",
).replace(
  "  PULLED: [U1.3, R1.2]\n",
  "  PULLED: [U1.3, R1.2]\n  FUSED: [F1.1, U2.3]\n  BEHIND: [F1.2, U2.4]\n  COIL_A: [L1.1, U6.1]\n  COIL_B: [L1.2, U6.2]\n  SERIES_A: [R2.1, U6.4]\n  SERIES_B: [R2.2, U6.5]\n",
)}`;

async function rows(...lines: readonly string[]) {
  const table = `| From | To | Reading |\n|---|---|---|\n${lines.map((line) => `| ${line} |\n`).join("")}`;
  return judgeTable(table, { heading: "Continuity" });
}
async function ruled(line: string): Promise<string> {
  const [{ verdict, code, says } = { verdict: "", code: "", says: { fact: "" } }] = await rows(line);
  return [verdict, code, says.fact].filter(Boolean).join(" | ");
}

describe("along one net", () => {
  test("a beep is what should be, and disproves no crack", async () => {
    const [one] = await rows("U1-5 | U2-1 | beep");
    expect(one).toMatchObject({ verdict: "within-limits", says: { fact: expect.stringContaining("BUS") } });
    expect(one?.says.cause).toMatch(/not disproved/);
    expect(one?.code).toBeUndefined();
  });

  test.each([
    ["U1-5 | U2-1 | no beep", "out-of-limits"],
    ["U1 pin 5 | U2 pin 1 | OL", "out-of-limits"],
    ["U1.5 | U2.1 | 2k2", "out-of-limits"],
    ["U1-5 | U2-1 | 12 ohm", "suspect"],
    ["U1-5 | U2-1 | faint beep", "suspect"],
  ])("%s is %s and an open", async (line, verdict) => {
    expect(await ruled(line)).toMatch(new RegExp(`^${verdict} \\| continuity-open \\| .*BUS`));
  });
});

describe("between two nets", () => {
  test.each(["U1-5 | U1-3 | beep", "U1-5 | U1-3 | 0.3", "U1-5 | GND | beep", "+5V | GND | 0.2"])(
    "%s is a bridge",
    async (line) => {
      expect(await ruled(line)).toMatch(/^out-of-limits \| continuity-bridge \| /);
    },
  );

  test("no beep is what should be", async () => {
    expect(await ruled("U1-5 | U1-3 | no beep")).toMatch(/^within-limits \| U1-5 to U1-3 does not beep/);
  });

  test("some ohms are a part in between, and decide nothing", async () => {
    expect(await ruled("U1-5 | U1-3 | 33")).toMatch(/^unjudged \| .*with a part between/);
  });

  test("a full board from a rail to ground may beep", async () => {
    expect(await ruled("+5V | GND | beep")).toMatch(/^unjudged \| .*a full board/);
  });
});

test("what no net is known for is not judged, and says that it can become one", async () => {
  expect(await ruled("U6-1 | U7-1 | no beep")).toMatch(/^unjudged \| U6-1 to U7-1: no net is known/);
});

test("a beep makes a net where the board has none, and the next row is held against it", async () => {
  const all = await rows("U6-1 | U7-1 | beep", "U7-1 | U6-1 | no beep");
  expect(all.map(({ verdict, code }) => [verdict, code])).toEqual([
    ["within-limits", undefined],
    ["out-of-limits", "continuity-open"],
  ]);
});

test("what the row expects goes before the board", async () => {
  const table =
    "| From | To | Reading | Expected |\n|---|---|---|---|\n| U1-5 | U2-1 | no beep | no beep |\n| U6-9 | U7-9 | no beep | beep |\n| U6-9 | U7-8 | beep | open |\n| U6-9 | U7-8 | 33 | open |\n";
  const all = await judgeTable(table, { heading: "Continuity" });
  expect(all.map(({ verdict, code }) => [verdict, code])).toEqual([
    ["within-limits", undefined],
    ["out-of-limits", "continuity-open"],
    ["out-of-limits", "continuity-bridge"],
    ["unjudged", undefined],
  ]);
});

describe("parts that a beeper hears", () => {
  const opened = async (...lines: readonly string[]) => {
    const { service, uri } = await openAt(
      `//- trial.board.yaml\n${WITH_PARTS}//- mendlog.shop.yaml\n${SHOP}//- log.md\n---\nmendlog: 1\nboard: trial\n---\n\n## Continuity\n\n| From | To | Reading |\n|---|---|---|\n${lines.map((line) => `| ${line} |\n`).join("")}$0`,
    );
    const view = service.view(uri)!;
    const source = fromLog({ doc: view.doc, front: view.front, ctx: view.ctx });
    return {
      codes: service.findings(uri).map(({ code, message }) => `${code}: ${message}`),
      signs: source?.findings.flatMap(({ finding }) => (finding.kind === "sign" ? finding.sign : [])),
    };
  };

  test.each(["U6-1 | U6-2 | beep", "U6-1 | U6-2 | 0.2"])(
    "%s by way of a coil is no bridge to anybody",
    async (line) => {
      const { codes, signs } = await opened(line);
      expect(codes).toEqual([]);
      expect(signs).toEqual([]);
    },
  );

  test("150 ohm between two nets does not beep, so a beep is a bridge and heard as one", async () => {
    const { codes, signs } = await opened("U6-4 | U6-5 | beep");
    expect(codes).toEqual([expect.stringMatching(/^continuity-bridge: U6-4 to U6-5 beeps/)]);
    expect(signs).toEqual(["continuity-short"]);
  });

  test("a fuse should beep, and is the fault where it does not", async () => {
    expect((await opened("U2-3 | U2-4 | beep")).codes).toEqual([]);
    const { codes, signs } = await opened("U2-3 | U2-4 | no beep");
    expect(codes).toEqual([expect.stringMatching(/^continuity-open: .*F1 lies between/)]);
    expect(signs).toEqual(["continuity-open"]);
  });

  test("one that comes and goes along a net is an open to the diagnosis too", async () => {
    const { codes, signs } = await opened("U1-5 | U2-1 | only when pressed");
    expect(codes).toEqual([
      expect.stringMatching(/^continuity-open: U1-5 to U2-1 reads "only when pressed"/),
    ]);
    expect(signs).toEqual(["continuity-open"]);
  });
});

test("a repair and a beep after it settle the row before, whichever end stands first", async () => {
  const { service, uri } = await openAt(
    `//- trial.board.yaml\n${BOARD}//- mendlog.shop.yaml\n${SHOP}//- log.md\n---\nmendlog: 1\nboard: trial\n---\n\n## Continuity\n\n| From | To | Reading |\n|---|---|---|\n| U1-5 | U2-1 | no beep |\n| U1-5 | U1-3 | beep |\n\n## Work done\n\n| Ref | Action |\n|---|---|\n| U1 | jumper from pin 5 to U2 pin 1 |\n\n## Continuity after repair\n\n| From | To | Reading |\n|---|---|---|\n| U2 pin 1 | U1 pin 5 | beep |\n$0`,
  );
  const told = service
    .findings(uri)
    .filter(({ code }) => code.startsWith("continuity"))
    .map(({ code, severity }) => [code, severity]);
  expect(told).toEqual([
    ["continuity-open", "hint"],
    ["continuity-bridge", "warning"],
  ]);
});
