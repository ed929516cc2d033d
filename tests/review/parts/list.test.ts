import { describe, expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import type { Shop } from "../../../server/src/knowledge/types";
import { fittedParts } from "../../../server/src/review/parts/fitted";
import { partsList } from "../../../server/src/review/parts/list";
import { shelfOf } from "../../../server/src/review/parts/shelf";
import { demoLogs, openDemo } from "../../support/demo";
import { readBody } from "../../support/log";
import { openWorld } from "../../support/workspace";

const shop = (stock: Shop["stock"]): Shop => ({ name: "test", meters: new Map(), stock, report: new Map() });

async function listOf(body: string, front = "") {
  const text = exampleLog(body, front);
  const { service } = await openWorld(text);
  const view = service.view("mem:/ws/log.md");
  if (!view) throw new Error("no log");
  return partsList(view);
}

describe("what was fitted", () => {
  const WORK = "## Work\n\n| Ref | Action | Part |\n|---|---|---|\n";
  const FITTED = "\n## Parts fitted\n\n| Part | Quantity | Ref |\n|---|---|---|\n";
  const fitted = (body: string) =>
    fittedParts(readBody(body)).map(({ part, quantity, refs }) =>
      `${quantity} ${part} ${refs.join(" ")}`.trim(),
    );

  test("one part told in both tables is one part", () => {
    expect(fitted(`${WORK}| U14 | replaced | 74LS04 |\n${FITTED}| 74ls04 | 1 | U14 |\n`)).toEqual([
      "1 74LS04 U14",
    ]);
  });
  test("places that only the work names are added", () => {
    expect(
      fitted(
        `${WORK}| U14 | replaced | 74LS04 |\n| U15 | replaced | 74LS04 |\n${FITTED}| 74LS04 | 1 | U14 |\n`,
      ),
    ).toEqual(["2 74LS04 U14 U15"]);
  });
  test("but fill up pieces counted without a place first", () => {
    expect(
      fitted(`${WORK}| D1 | replaced | 1N4148 |\n| D2 | replaced | 1N4148 |\n${FITTED}| 1N4148 | 5 | |\n`),
    ).toEqual(["5 1N4148 D1 D2"]);
  });
  test("ranges count every place, and what was only taken off or cleaned is no part", () => {
    expect(
      fitted(`${WORK}| Q1-Q3 | replaced | TIP102 |\n| U9 | removed | 5101 |\n| J1 | cleaned | - |\n`),
    ).toEqual(["3 TIP102 Q1 Q2 Q3"]);
  });
});

describe("the shelf", () => {
  const library = builtinLibrary();
  const stock = [
    { part: "74LS04", quantity: 2 },
    { part: "10 uF 10 V", quantity: 5 },
    { part: "10 uF 63 V", quantity: 5 },
    { part: "10 uF 25 V", quantity: 1 },
    { part: "4.7 kohm", quantity: 1 },
    { part: "470", quantity: 1 },
  ].map((item, index) => ({ ...item, index }));
  test("gives the same device, and the lowest rating that is high enough and there", () => {
    const shelf = shelfOf(shop(stock), library);
    const named = (part: string, bare?: "resistance") => shelf.find(part, bare)?.part;
    expect(named("SN74LS04N")).toBe("74LS04");
    expect(named("7404")).toBeUndefined();
    expect(named("10 uF 16 V")).toBe("10 uF 25 V");
    const item = shelf.find("10 uF 16 V");
    expect(item && shelf.take(item, 3)).toBe(1);
    expect(named("10 uF 16 V")).toBe("10 uF 63 V");
    expect(named("10 uF 100 V")).toBeUndefined();
    expect(named("4k7", "resistance")).toBe("4.7 kohm");
    expect(named("22 uF 16 V")).toBeUndefined();
  });
  test("never promises more than it has", () => {
    const shelf = shelfOf(shop([{ part: "2114", quantity: 3, index: 0 }]), library);
    const item = shelf.find("2114");
    if (!item) throw new Error("not found");
    expect([shelf.take(item, 2), shelf.take(item, 2), shelf.take(item, 2), shelf.left(item)]).toEqual([
      2, 1, 0, 0,
    ]);
  });
});

describe("what should be fitted", () => {
  const READ = "## Resistance\n\n| Ref | Reading |\n|---|---|\n| R12 | 12k |\n";
  test("a part that a reading disproved, until it was replaced", async () => {
    const { suggested } = await listOf(READ);
    expect(suggested.map(({ part, refs, standard }) => [part, refs, standard])).toEqual([
      ["4k7", ["R12"], "4.7 kΩ (E3)"],
    ]);
    const after = await listOf(
      `${READ}\n## Work\n\n| Ref | Action | Part |\n|---|---|---|\n| R12 | replaced | 4k7 |\n`,
    );
    expect(after.suggested).toEqual([]);
    expect(after.fitted.map(({ part }) => part)).toEqual(["4k7"]);
  });
  test("a socket for every chip, where none is there", async () => {
    const work = (note: string) =>
      `## Work\n\n| Ref | Action | Note |\n|---|---|---|\n| U14 | removed | ${note} |\n`;
    const parts = async (note: string) => (await listOf(work(note))).suggested.map(({ part }) => part);
    expect(await parts("")).toEqual(["74LS04", "DIP-14 socket"]);
    expect(await parts("socketed since")).toEqual(["74LS04"]);
    expect(await parts("socket off too")).toEqual(["74LS04", "DIP-14 socket"]);
  });
  test("readings within limits suggest nothing", async () => {
    const { suggested, fitted } = await listOf(READ.replace("12k", "4.6k"));
    expect([suggested, fitted]).toEqual([[], []]);
  });
});

describe("what the log itself asks for", () => {
  const WORK = "## Work\n\n| Ref | Action | Part | Quantity |\n|---|---|---|---|\n";
  const FITTED = "\n## Parts fitted\n\n| Part | Quantity |\n|---|---|\n";
  const wanted = async (body: string) =>
    (await listOf(body)).suggested.map(({ part, state, quantity }) => `${state}: ${quantity} x ${part}`);

  test("a row that plans is a part to fit, until it is done", async () => {
    expect(await wanted(`${WORK}| R12 | to replace | | |\n`)).toEqual(["planned: 1 x 4k7"]);
    expect(await wanted(`${WORK}| U14 | planned: replace | 74LS04 | |\n`)).toEqual([
      "planned: 1 x 74LS04",
      "suggested: 1 x DIP-14 socket",
    ]);
    const after = await listOf(`${WORK}| R12 | to replace | | |\n| R12 | replaced | 4k7 | |\n`);
    expect([after.suggested, after.fitted.map(({ part }) => part)]).toEqual([[], ["4k7"]]);
    expect((await listOf(`${WORK}| R12 | to replace | | |\n`)).fitted).toEqual([]);
  });

  test("a modification's parts, less those that are written as fitted, and those of what it requires", async () => {
    const row = (action: string, id: string) => `${WORK}| J3 | ${action} | ${id} | |\n`;
    expect(await wanted(row("fit modification", "line-clamps"))).toEqual(["planned: 12 x 1N4148"]);
    expect(await wanted(`${row("fit modification", "line-clamps")}${FITTED}| 1N4148 | 4 |\n`)).toEqual([
      "planned: 8 x 1N4148",
    ]);
    expect(await wanted(`${row("fit modification", "line-clamps")}${FITTED}| 1N4148 | 12 |\n`)).toEqual([]);
    expect(await wanted(row("plan modification", "line-series"))).toEqual(["planned: 12 x 1N4148"]);
    const { suggested } = await listOf(row("plan modification", "line-series"));
    expect(suggested[0]?.why.join()).toContain('required by "Series resistors in the switch rows"');
  });
});

describe("what is used up", () => {
  const SHOP = `mendlog-shop: 1
name: Bench
currency: EUR
stock:
  - { part: solder wick 2 mm, quantity: 2, price: "2.20", location: drawer 9 }
  - { part: no-clean flux, quantity: 0, price: "6.80" }
  - { part: thermal paste, quantity: 1 }
`;
  const used = async (body: string) => {
    const { service } = await openWorld(`${exampleLog(body)}//- mendlog.shop.yaml\n${SHOP}`);
    const view = service.view("mem:/ws/log.md");
    if (!view) throw new Error("no log");
    return partsList(view).consumables;
  };
  test("stands with what the shop file lists of it under whatever name, and is ordered where none is left", async () => {
    const all = await used("## Work\n\n| Ref | Action |\n|---|---|\n| R12 | replaced |\n");
    expect(
      all.map(({ what, stock, order, price }) => [what, stock?.part, stock?.quantity, order, price]),
    ).toEqual([
      ["desoldering braid", "solder wick 2 mm", 2, 0, "2.20"],
      ["solder", undefined, undefined, 0, undefined],
      ["flux", "no-clean flux", 0, 1, "6.80"],
      ["isopropyl alcohol", undefined, undefined, 0, undefined],
    ]);
  });
  test("and a leaking battery takes a neutraliser and water", async () => {
    const all = await used("## Inspection\n\n| Ref | Result |\n|---|---|\n| BT1 | leaking |\n");
    const [neutraliser, water] = all;
    expect([neutraliser?.what, water?.what]).toEqual([
      "neutraliser (white vinegar or citric acid, dilute)",
      "distilled water",
    ]);
    for (const { why } of all.slice(0, 2)) expect(why).toMatch(/gloves|dry the board/);
  });
});

test("no line of the demo's lists takes a reading for proof, and every caution stays with its part", async () => {
  const service = await openDemo();
  let lines = 0;
  for (const [uri, text] of demoLogs) {
    service.open(uri, text);
    const view = service.view(uri);
    if (!view) throw new Error(uri);
    const list = partsList(view);
    for (const line of [...list.suggested, ...list.fitted]) {
      lines++;
      expect(line.quantity).toBeGreaterThan(0);
      expect(line.order).toBeLessThanOrEqual(line.quantity);
      for (const { caution } of line.substitutes) expect(caution).not.toBe("");
      expect(line.why.join(" ")).not.toMatch(/\b(?:good|passed|proves|proven)\b/i);
    }
    expect(list.quote).toBeUndefined();
  }
  expect(lines).toBeGreaterThan(15);
});
