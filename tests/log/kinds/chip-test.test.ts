// A kind of table that is one YAML file and one record: everything that asks the record knows it.

import { describe, expect, test } from "vitest";
import { boardFromWords, newLogText } from "../../../server/src/features/new-log";
import { judgeBlock } from "../../../server/src/judge";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import { checkCompletion, checkHover, offeredAt } from "../../support/features";
import { BOARD, SHOP } from "../../support/judged";
import { readBody, readingsOf, tableList } from "../../support/log";
import { everything, words } from "../../support/words";
import { openAt, openWorld } from "../../support/workspace";

const TABLE = "| Ref | Part | Result |\n|-----|------|--------|\n| U1 | 74LS04 | fail |\n";
const world = (body: string, board = BOARD) =>
  `//- trial.board.yaml\n${board}//- mendlog.shop.yaml\n${SHOP}//- log.md\n---\nmendlog: 1\nboard: trial\n---\n\n${body}`;

describe("a heading", () => {
  test.each([
    "Chip test",
    "Chip tests before repair",
    "Chip tester, U1",
    "IC tester",
    "Out of circuit test",
    "Out-of-circuit tests",
    "Out of circuit test of U1",
    "Chip testing",
  ])("%s names it", (heading) => {
    const doc = readBody(`## ${heading}\n\n${TABLE}`);
    expect(tableList(doc).map(({ procedure }) => procedure.id)).toEqual(["chip-test"]);
    expect(readingsOf(doc)).toEqual(["U1 74LS04 result fail = fails"]);
  });

  test.each([
    ["Memory chip test", "memory-test"],
    ["Capacitance, tested out of circuit", "capacitance-esr"],
    ["Transistor test out of circuit", "transistor-junctions"],
    ["Chips", "parts-on-board"],
    ["Chips tested with the logic probe", "logic-states"],
  ])("%s is %s as before", (heading, id) => {
    expect(builtinLibrary().procedureFor(heading)?.procedure.id).toBe(id);
  });
});

describe("a row is judged", () => {
  const judged = async (result: string) => {
    const { view } = await openAt(
      world(`## Chip test\n\n| Ref | Result |\n|---|---|\n| U1 | ${result} |\n$0`),
    );
    const [one] = view.doc.blocks.flatMap(({ block }) => [...judgeBlock(block, view.ctx).values()]);
    return one;
  };

  test.each(["fail", "failed", "bad", "dead"])("%s disproves the chip", async (word) => {
    const judgement = await judged(word);
    expect(judgement).toMatchObject({ verdict: "out-of-limits", code: "chip-test-failed" });
    expect(everything(judgement)).toContain("U1 failed its test out of circuit");
  });

  test.each(["pass", "passed", "good", "ok"])("%s does not, and proves nothing", async (word) => {
    const judgement = await judged(word);
    expect(judgement?.verdict).toBe("within-limits");
    expect(judgement?.code).toBeUndefined();
    expect(words(judgement)).toBe(
      "U1 showed no fault in that test. Not disproved. It may still fail warm or at speed.",
    );
    expect(everything(judgement)).not.toMatch(/\b(?:good|proven|proves)\b/);
  });

  test("what leaves it open is not judged", async () => {
    expect((await judged("intermittent"))?.verdict).toBe("unjudged");
  });
});

describe("at the cursor", () => {
  test("chips come before other parts, and the words of a tester are offered", async () => {
    const { labels } = await offeredAt(world("## Chip test\n\n| Ref | Result |\n|---|---|\n| $0 |  |\n"));
    expect(labels.indexOf("U1")).toBeLessThan(labels.indexOf("C1"));
    const words = await checkCompletion(
      world("## Chip test\n\n| Ref | Result |\n|---|---|\n| U1 | $0 |\n"),
      "fail",
      "pass | may still fail warm or at speed",
    );
    expect(words.labels).not.toContain("ok");
  });

  test("over the heading stands how it is done, cautions included", async () => {
    await checkHover(world(`## Chip$0 test\n\n${TABLE}`), "Chip test", "Caution", "It may still fail warm");
  });
});

test("the number in its row is what stands at the place", async () => {
  const { view } = await openAt(`//- log.md\n---\nmendlog: 1\n---\n\n## Chip test\n\n${TABLE}$0`);
  expect(view.ctx.board?.value.parts.get("U1")?.device).toBe("74LS04");
});

describe("a new log", () => {
  const written = async (board: string) => {
    const { service } = await openWorld(world("", board));
    const { boards, library } = service.knowledge.snapshot();
    return newLogText({ board: "trial" }, boardFromWords("trial", { boards, library, logs: [] }), library);
  };

  test("has no table of it, as only readings tell which chip to pull", async () => {
    expect(await written(BOARD)).not.toContain("## Chip test");
  });

  test("has one where the board is proven by it", async () => {
    const text = await written(
      `${BOARD}proving:\n  - { id: chips, title: Every socketed chip, procedure: chip-test }\n`,
    );
    expect(text).toMatch(/## Chip test\n[\s\S]*\| Ref +\| Part +\| Result +\| Note +\|/);
  });
});
