// Known-good parts that were tried: what a row says of the fault, and whether the part counts as fitted.
import { describe, expect, test } from "vitest";
import { diagnose } from "../../../server/src/compute/diagnosis";
import { judgeBlock } from "../../../server/src/judge";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import { timelineOf, workRows } from "../../../server/src/log/timeline";
import { swapOutcome } from "../../../server/src/log/timeline/swaps";
import { fromLog } from "../../../server/src/review/diagnosis/from-log";
import { checkCompletion, offeredAt } from "../../support/features";
import { BOARD, SHOP } from "../../support/judged";
import { readBody, tableList } from "../../support/log";
import { openAt } from "../../support/workspace";

const world = (body: string) =>
  `//- trial.board.yaml\n${BOARD}//- mendlog.shop.yaml\n${SHOP}//- log.md\n---\nmendlog: 1\nboard: trial\n---\n\n${body}`;
const swaps = (...rows: readonly string[]) =>
  `## Swap test\n\n| Ref | Part | Result | Then |\n|---|---|---|---|\n${rows.map((row) => `| ${row} |\n`).join("")}\n`;

describe("a heading", () => {
  test.each(["Swap test", "Swap tests", "Known-good parts", "Parts tried", "Chip swap", "Substitution test"])(
    "%s names it",
    (heading) => {
      const doc = readBody(
        `## ${heading}\n\n| Ref | Result | Then |\n|---|---|---|\n| U1 | same | put back |\n`,
      );
      expect(tableList(doc).map(({ procedure }) => procedure.id)).toEqual(["swap"]);
    },
  );

  test.each([
    ["Soak test", "soak"],
    ["Work done", "work"],
    ["Parts fitted", "parts-fitted"],
  ])("%s is %s as before", (heading, id) => {
    expect(builtinLibrary().procedureFor(heading)?.procedure.id).toBe(id);
  });
});

test.each([
  ["cured", "cured"],
  ["fault gone", "cured"],
  ["works now", "cured"],
  ["not cured, but better", "better"],
  ["no better", "same"],
  ["no change", "same"],
  ["still dead", "same"],
  ["did not help", "same"],
  ["fails as before", "same"],
  ["worse, row 3 gone too", "worse"],
  ["see below", undefined],
  ["swapped for a known-good one", undefined],
  ["a good one put in: the same", "same"],
])("%s is %s", (words, outcome) => {
  expect(swapOutcome(words)).toBe(outcome);
});

describe("what stays in the board", () => {
  const told = (row: string) => {
    const doc = readBody(swaps(row));
    return {
      done: workRows(doc).map(({ refs }) => refs.join(",")),
      replaced: [...timelineOf(doc).replaced.keys()],
      repairs: timelineOf(doc).repairs,
    };
  };

  test.each([
    "U1 | 74LS04 | cured | left in",
    "U1 | 74LS04 | cured, new one stays | ",
    "U1 | | cured | kept in",
  ])("%s: fitted", (row) => {
    expect(told(row)).toEqual({ done: ["U1"], replaced: ["U1"], repairs: 1 });
  });

  test.each([
    "U1 | 74LS04 | same | put back",
    "U1 | 74LS04 | cured, old one back in | ",
    "U1 | 74LS04 | worse | original refitted",
    "U1 | 74LS04 | cured | not left in",
    // Nothing says so, and nothing is called fitted that may be on its shelf.
    "U1 | 74LS04 | cured | ",
  ])("%s: not fitted, and no repair", (row) => {
    expect(told(row)).toEqual({ done: [], replaced: [], repairs: 0 });
  });
});

describe("a row is judged", () => {
  const judged = async (result: string) => {
    const { view } = await openAt(world(`${swaps(`U1 | 74LS04 | ${result} | put back`)}$0`));
    const [one] = view.doc.blocks.flatMap(({ block }) => [...judgeBlock(block, view.ctx).values()]);
    return one;
  };

  test.each(["cured", "better"])("%s accuses the place", async (word) => {
    expect(await judged(word)).toMatchObject({ verdict: "out-of-limits", code: "swap-helped" });
  });

  test("the same lowers the suspicion and proves nothing", async () => {
    const same = await judged("same");
    expect(same?.verdict).toBe("within-limits");
    expect(same?.says.cause).toContain("It is not proven");
  });

  test("worse is not judged", async () => {
    expect((await judged("worse"))?.verdict).toBe("unjudged");
  });
});

describe("the diagnosis", () => {
  const first = async (body: string) => {
    const { view } = await openAt(world(`${body}$0`));
    const taken = fromLog(view);
    if (!taken) throw new Error("no board");
    const result = diagnose(taken.input);
    return result.ok ? { ...taken, ranked: result.ranked.map(({ suspect }) => suspect.id) } : undefined;
  };

  test("leads with what the other part cured, while the old one is in", async () => {
    expect((await first(swaps("U1 | 74LS04 | cured | put back")))?.ranked[0]).toBe("U1");
  });

  test("waits for a reading where it was left in", async () => {
    const found = await first(swaps("U1 | 74LS04 | cured | left in"));
    expect(found?.ranked).toEqual([]);
    expect(found?.waiting).toMatchObject([{ ref: "U1" }]);
  });

  test("takes no change as speaking against the part", async () => {
    expect((await first(swaps("U1 | 74LS04 | same | put back")))?.input.against).toEqual([
      { ref: "U1", by: "swap-same" },
    ]);
  });
});

describe("at the cursor", () => {
  test("its own words are offered for the result, and for what was done then", async () => {
    const results = await checkCompletion(
      world(swaps("U1 | 74LS04 | $0 | ")),
      "cured | the fault is gone with the other part in",
      "same | no change",
    );
    expect(results.labels).not.toContain("dead");
    const { labels } = await offeredAt(world(swaps("U1 | 74LS04 | cured | $0")));
    expect(labels).toEqual(expect.arrayContaining(["put back", "left in"]));
  });
});
