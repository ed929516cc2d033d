// Nets that are two and stand as one, and pins that are of one net and stand as two; each beside a log that only looks so.
// On the demo's boards.
import { describe, expect, test } from "vitest";
import { suspectName } from "../../../server/src/compute/diagnosis/suspects";
import { joinedDataLines } from "../../../server/src/compute/memory/joined-lines";
import { diagnosisOf } from "../../../server/src/review/diagnosis/of-log";
import { openDemo } from "../../support/demo";

async function diagnosed(board: "controller" | "driver", ...tables: readonly string[]) {
  const service = await openDemo();
  const uri = "mem:/demo/logs/joined.md";
  service.open(uri, `---\nmendlog: 1\nboard: regatta-${board}\nrevision: B\n---\n\n${tables.join("\n")}`);
  const view = service.view(uri);
  const found = view && diagnosisOf(view);
  if (!found) throw new Error("no diagnosis");
  return {
    first: found.diagnosis.ranked.slice(0, 3).map(({ suspect }) => suspectName(suspect)),
    kinds: found.log.input.findings.flatMap((one) => (one.kind === "sign" ? one.sign : one.kind)),
    next: found.advice.best,
  };
}

const table = (heading: string, columns: string, ...rows: readonly string[]): string =>
  `## ${heading}\n\n| ${columns} |\n|${columns.replace(/[^|]+/g, "---")}|\n${rows.map((row) => `| ${row} |\n`).join("")}\n`;
const levels = (...rows: readonly string[]): string => table("Logic levels", "Ref | Pin | Reading", ...rows);
const states = (...rows: readonly string[]): string => table("Logic states", "Ref | Pin | State", ...rows);
const rung = (...rows: readonly string[]): string => table("Continuity", "From | To | Reading", ...rows);

describe("a bridge", () => {
  test("is one suspect, and what is left after the beep is to look for it there", async () => {
    const { first, next } = await diagnosed("controller", rung("J3-3 | J3-4 | 0.3 ohm", "J3-2 | J3-3 | OL"));
    expect(first[0]).toBe("a bridge between SW_ROW_3 and SW_ROW_4");
    expect(next).toMatchObject({ kind: "inspection", ref: "J3", pin: "3" });
  });

  test("and not where the row's own resistors lie between: a pack has one of them for each line", async () => {
    expect((await diagnosed("controller", rung("RN2-1 | RN2-16 | 39 ohm"))).kinds).toEqual([]);
  });

  test("is heard in a row's note that names another line, and not in one that names none", async () => {
    const row = (note: string): string =>
      table(
        "Switch matrix, loom unplugged",
        "Row | Column | Result | Note",
        `3 | 1 | wrong | ${note}`,
        `4 | 1 | wrong | ${note.replace("4", "3")}`,
        `3 | 2 | wrong | ${note}`,
        "5 | 1 | ok |",
      );
    expect((await diagnosed("controller", row("row 4 as well"))).first).toContain(
      "a bridge between SW_ROW_3 and SW_ROW_4",
    );
    expect((await diagnosed("controller", row("slow"))).kinds).not.toContain("lines-joined");
  });

  test("of two outputs at one voltage between the levels; not of three", async () => {
    const two = ["U10 | 11 | 1.3 V", "U10 | 12 | 1.3 V"];
    expect((await diagnosed("controller", levels(...two, "U10 | 13 | 3.9 V"))).first).toContain(
      "a bridge between CSEL_1 and CSEL_2",
    );
    expect((await diagnosed("controller", levels(...two, "U10 | 13 | 1.3 V"))).kinds).not.toContain(
      "levels-joined",
    );
  });

  test("of two data lines that always read the same", () => {
    const words = [
      { address: 0, wrote: 1, read: 0 },
      { address: 1, wrote: 2, read: 0 },
      { address: 2, wrote: 3, read: 3 },
    ];
    expect(joinedDataLines(words)).toEqual([0, 1]);
    expect(joinedDataLines([...words, { address: 3, wrote: 1, read: 1 }])).toBeUndefined();
    expect(
      joinedDataLines([
        { address: 0, wrote: 0, read: 4 },
        { address: 1, wrote: 8, read: 12 },
      ]),
    ).toBeUndefined();
  });
});

describe("a pin apart from its net", () => {
  test("that stands still while its driver moves", async () => {
    const { first, kinds } = await diagnosed(
      "controller",
      states("U6 | 13 | pulse", "U17 | 11 | H", "U17 | 3 | pulse"),
    );
    expect(kinds).toContain("moves-apart");
    expect(first).toContain("the joint of U17 pin 11");
    expect((await diagnosed("controller", states("U6 | 13 | H", "U17 | 11 | H"))).kinds).not.toContain(
      "moves-apart",
    );
  });

  test("an emitter that is off ground, and one that is on it", async () => {
    const log = (emitter: string): string =>
      levels("Q13 | 1 | 3.1 V", "Q3 | 1 | 3.1 V", `Q3 | 3 | ${emitter}`, "Q2 | 3 | 0.0 V");
    expect((await diagnosed("driver", log("1.7 V"))).first[0]).toBe("the joint of Q3 pin 3");
    expect((await diagnosed("driver", log("0.1 V"))).first[0]).not.toBe("the joint of Q3 pin 3");
  });

  test("of two ends that do not ring, the one that rings to nothing else", async () => {
    const { first } = await diagnosed("controller", rung("U13-7 | TP4-1 | OL", "U14-7 | TP4-1 | 0.1 ohm"));
    expect(first[0]).toBe("the joint of U13 pin 7");
  });
});

test("a transistor that is off and conducts, and one that is off", async () => {
  const log = (collector: string): string =>
    levels("Q53 | 1 | 4.98 V", "Q53 | 2 | 4.97 V", `Q53 | 3 | ${collector}`);
  expect((await diagnosed("driver", log("4.96 V"))).first[0]).toBe("Q53");
  expect((await diagnosed("driver", log("0.0 V"))).kinds).not.toContain("stage");
});

describe("a decoder's lines of which few were tried", () => {
  const tried = (...rows: readonly string[]): string =>
    table("Switch matrix, loom unplugged", "Switch | Result", ...rows);
  const half = ["1,1 | dead", "2,1 | dead", "1,4 | dead", "2,4 | dead", "1,5 | ok", "2,8 | ok", "1,6 | ok"];

  test("are those of one bit, where the rest of them answers nowhere", async () => {
    const { kinds } = await diagnosed("controller", tried(...half, "1,2 | dead", "1,3 | dead"));
    expect(kinds).toEqual(["decoder-bit"]);
  });

  test.each([
    ["one of them answers", ["1,2 | dead", "1,3 | ok"]],
    ["one of them was not tried", ["1,2 | dead"]],
  ])("and not where %s", async (_, rest) => {
    expect((await diagnosed("controller", tried(...half, ...rest))).kinds).not.toContain("decoder-bit");
  });
});

describe("a cell that leaked", () => {
  const seen = async (note: string): Promise<readonly string[]> =>
    (await diagnosed("controller", table("Inspection", "Item | Result | Note", `BT1 | leaking | ${note}`)))
      .kinds;

  test("is no suspect once it is off the board, and one while it stands there", async () => {
    expect(await seen("out already")).toEqual([]);
    expect(await seen("cut out and neutralised")).toEqual([]);
    expect(await seen("out of its can on one side")).toEqual(["part"]);
  });
});
