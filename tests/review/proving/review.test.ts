import { describe, expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { type ItemReview, provingReview } from "../../../server/src/review/proving";
import { itemNamed } from "../../../server/src/review/proving/item-named";
import { lengthOfTime } from "../../../server/src/review/proving/length-of-time";
import { boardHead, logOf } from "../../support/boards";
import { demoText, openDemo } from "../../support/demo";
import { table } from "../../support/tables";
import { openWorld } from "../../support/workspace";

async function reviewOf(body: string, front = ""): Promise<(id: string) => ItemReview> {
  const { service } = await openWorld(exampleLog(body, front));
  const view = service.view("mem:/ws/log.md")!;
  const { items } = provingReview(view.doc, view.ctx);
  return (id) => items.find(({ item }) => item.id === id)!;
}

const WORK = "## Work done\n\n| Ref | Action | Date |\n|---|---|---|\n| U14 | clean | 2026-03-02 |\n\n";
const proving = (...rows: string[]): string =>
  `## Proving\n\n| Date | Item | Result | Note |\n|---|---|---|---|\n${rows.join("\n")}\n\n`;
const soak = (...rows: string[]): string =>
  `## Soak\n\n| After | Result |\n|---|---|\n${rows.join("\n")}\n\n`;

describe("rows of the proving table", () => {
  test("prove an item by its id or its title, and nothing beside it", async () => {
    const of = await reviewOf(WORK + proving("| | MEMORY | ok | |", "| | one hour, on the bench | ok | |"));
    expect(of("memory")).toMatchObject({ state: "proven", wants: "" });
    expect(of("soak").state).toBe("proven");
    expect(of("rails").state).toBe("unproven");
    expect(of("rails").wants).toContain('"Supplies on load"');
  });

  test("an item that failed once since the last repair is failed, whatever came later", async () => {
    const of = await reviewOf(WORK + proving("| | memory | fail | |", "| | memory | ok | |"));
    expect(of("memory").state).toBe("failed");
    expect(of("memory").said.map(({ text }) => text)).toEqual(['the proving table says "fail"']);
  });

  test("a failure before the repair is history", async () => {
    const of = await reviewOf(proving("| | memory | fail | |") + WORK + proving("| | memory | ok | |"));
    expect(of("memory").state).toBe("proven");
  });

  test("what was proven before the last repair is proven no longer, by place or by day", async () => {
    const above = await reviewOf(proving("| | memory | ok | |") + WORK);
    expect(above("memory")).toMatchObject({ state: "unproven" });
    expect(above("memory").wants).toContain("before the last repair");
    const dated = await reviewOf(proving("| 2026-03-04 | memory | ok | |") + WORK);
    expect(dated("memory").state).toBe("proven");
    const older = await reviewOf(WORK + proving("| 2026-03-01 | memory | ok | |"));
    expect(older("memory").state).toBe("unproven");
  });

  test("an empty result with a note gives the log's reason, and proves nothing", async () => {
    const of = await reviewOf(WORK + proving("| | memory | - | no tester here |", "| | soak | | |"));
    expect(of("memory")).toMatchObject({ state: "unproven", reason: "no tester here" });
    expect(of("soak").reason).toBeUndefined();
  });

  test("rows that are no item of the list are kept beside it", async () => {
    const { service } = await openWorld(exampleLog(proving("| | Lid closes | ok | |")));
    const view = service.view("mem:/ws/log.md")!;
    expect(provingReview(view.doc, view.ctx).beside).toMatchObject([{ item: "Lid closes", result: "ok" }]);
  });
});

describe("tables of the item's procedure", () => {
  const RAILS = (v: string): string =>
    `## Supply rails, loaded\n\n| Rail | Reading |\n|---|---|\n| +5V | ${v} |\n| +9V raw | 9.1 V |\n| +24V | 24 V |\n\n`;

  test("prove rails that are all within limits, after the repair only", async () => {
    expect((await reviewOf(WORK + RAILS("5.01 V")))("rails")).toMatchObject({
      state: "proven",
      coverage: { done: 3, total: 3 },
    });
    expect((await reviewOf(RAILS("5.01 V") + WORK))("rails").state).toBe("unproven");
  });

  test("a rail out of limits fails the item, even against the word of the proving table", async () => {
    const of = await reviewOf(WORK + RAILS("4.2 V") + proving("| | rails | ok | |"));
    expect(of("rails").state).toBe("failed");
    expect(of("rails").said[0]?.text).toBe('+5V reads "4.2 V"');
  });

  test("a rail that was left out is named", async () => {
    const of = await reviewOf(
      `${WORK}## Supply rails, loaded\n\n| Rail | Reading |\n|---|---|\n| +5V | 5.02 V |\n`,
    );
    expect(of("rails")).toMatchObject({
      state: "unproven",
      coverage: { done: 1, total: 3, missing: ["+9V raw", "+24V"] },
    });
  });

  test("a matrix counts rows and columns, and a bare ok does not outweigh a half-filled table", async () => {
    const half = "## Switch matrix\n\n| Row | Column | Result |\n|---|---|---|\n| 1 | 1 | ok |\n\n";
    const of = await reviewOf(WORK + half + proving("| | switches | ok | |"));
    expect(of("switches")).toMatchObject({ state: "unproven", coverage: { done: 2, total: 6 } });
    const said = await reviewOf(WORK + half + proving("| | switches | ok | rest seen in the test game |"));
    expect(said("switches").state).toBe("proven");
    const rest = "| 2 | 3 | ok |\n| 3 | 2 | ok |\n\n";
    expect((await reviewOf(WORK + half.trimEnd() + "\n" + rest))("switches").state).toBe("proven");
  });

  test("a soak is as long as its longest row that says it ran", async () => {
    expect((await reviewOf(WORK + soak("| 60 min | ok |")))("soak").state).toBe("proven");
    const short = (await reviewOf(WORK + soak("| 20 min | ok |", "| 90 min | - |")))("soak");
    expect(short).toMatchObject({ state: "unproven", coverage: { done: 20, total: 60 } });
    expect((await reviewOf(WORK + soak("| 60 min | ok |", "| 70 min | dead |")))("soak").state).toBe(
      "failed",
    );
  });

  test("unpowered readings never prove an item", async () => {
    const board = `${boardHead()}coils: [{ driver: Q5, resistance: 12 ohm, supply: "+24V", source: invented }]
rails: { "+24V": { nominal: 24 V, tolerance: 10 %, source: invented } }
parts: { Q5: { device: TIP102 } }
proving: [{ id: coils, title: Every coil, procedure: coil-resistance }]
`;
    const { service } = await openWorld(
      logOf(board, table("Coil resistance", "Ref | Reading", "Q5 | 12 ohm")),
    );
    const view = service.view("mem:/ws/log.md")!;
    const [coils] = provingReview(view.doc, view.ctx).items;
    expect(coils?.state).toBe("unproven");
    expect(coils?.wants).toContain("cannot prove");
  });
});

describe("images and settings", () => {
  const WITH = `${boardHead()}parts: { U34: { device: "2716" }, U35: { device: "2716" }, SW1: { value: switch } }
rom-sets:
  first: { title: First, images: [{ ref: U34, crc32: "4c90d1ab" }, { ref: U35, crc32: "e27b5609" }] }
  second: { title: Second, images: [{ ref: U34, crc32: "9d1f4c72" }, { ref: U35, crc32: "37ea80c5" }] }
switch-banks: { SW1: { settings: [{ title: Coins, switches: [1, 2], meaning: { "00": one } }] } }
proving:
  - { id: program, title: Program, procedure: rom-check }
  - { id: settings, title: Settings, procedure: settings }
`;
  const stateOf = async (body: string, front = "") => {
    const { service } = await openWorld(logOf(WITH, body, front));
    const view = service.view("mem:/ws/log.md")!;
    return provingReview(view.doc, view.ctx).items;
  };
  const rom = (a: string, b: string): string =>
    table("ROM check", "Ref | CRC-32", `U34 | ${a}`, `U35 | ${b}`);

  test("images of one set prove it, of two sets do not", async () => {
    expect((await stateOf(rom("9D1F4C72", "0x37ea80c5")))[0]?.state).toBe("proven");
    expect((await stateOf(rom("4c90d1ab", "37ea80c5")))[0]).toMatchObject({ state: "unproven" });
    expect((await stateOf(rom("4c90d1ab", "-")))[0]?.coverage?.missing).toEqual(["U35"]);
  });

  test("images of another set than the log's fail", async () => {
    const [program] = await stateOf(rom("4c90d1ab", "e27b5609"), "rom-set: second\n");
    expect(program?.state).toBe("failed");
    expect(program?.said[0]?.text).toContain("4c90d1ab");
  });

  test("every switch of every bank has to be noted", async () => {
    const bank = (row: string): string =>
      `## Settings\n\n| Bank | 1 | 2 |\n|---|---|---|\n| SW1 | ${row} |\n`;
    expect((await stateOf(bank("on | off")))[1]?.state).toBe("proven");
    expect((await stateOf(bank("on | -")))[1]?.coverage).toMatchObject({
      done: 1,
      total: 2,
      missing: ["SW1 2"],
    });
  });
});

test("lengths of time are read from words", () => {
  const lengths = [
    "One hour on the bench",
    "Soak, 30 min",
    "half an hour",
    "1.5 h",
    "2 days",
    "hourly",
    "Bench",
  ];
  expect(lengths.map(lengthOfTime)).toEqual([3600, 1800, 1800, 5400, 172800, undefined, undefined]);
});

test("an item is found by one title only", () => {
  const items = ["Every lamp", "All lamp"].map((title, i) => ({
    id: `i${i}`,
    title,
    procedure: "lamp-matrix",
  }));
  expect(itemNamed("every  LAMP.", items)?.id).toBe("i0");
  expect(itemNamed("lamp", items)).toBeUndefined();
  expect(itemNamed("", items)).toBeUndefined();
});

test("the demo's returned job has all of its list proven, the one done in a hurry none", async () => {
  const service = await openDemo();
  const counts = (name: string) => {
    const uri = `mem:/demo/logs/${name}.md`;
    service.open(uri, demoText(uri));
    const view = service.view(uri)!;
    return provingReview(view.doc, view.ctx).items.map(({ item, state }) => `${item.id} ${state}`);
  };
  expect(counts("2026-004-controller").filter((line) => !line.endsWith(" proven"))).toEqual([]);
  expect(counts("2026-004-controller")).toHaveLength(9);
  expect(counts("2025-087-driver")).toEqual([
    "rails unproven",
    "coils unproven",
    "lamps unproven",
    "soak unproven",
  ]);
});
