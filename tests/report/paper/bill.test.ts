// The bill: amounts to the last digit, whatever the log and the shop file hold.
import { describe, expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { billHtml, billMarkdown, billOf, writeBill } from "../../../server/src/report/bill";
import { openWorld } from "../../support/workspace";

const SHOP = `mendlog-shop: 1
name: Bench
currency: EUR
warranty-days: 90
labour: { rate: "46.00", per: hour, actions: { replace: "0.25" } }
quote: { show: no, tax: { title: VAT, rate: 19 % } }
stock:
  - { part: 74LS04, quantity: 3, price: "0.55" }
bill: { payment: Within 14 days. }
`;
const WORK =
  "## Work done\n\n| Ref | Action | Part |\n|---|---|---|\n| U14 | replaced | 74LS04 |\n| U15 | to be replaced | 74LS04 |\n\n";
const HOURS =
  "## Hours\n\n- 2026-03-04: 1.5 h readings\n- 2026-03-04: 0.25 h more\n- 2026-03-03: 0,1 h looked at\n";

async function source(body: string, front = "stage: returned\nreturned: 2026-03-20\n", shop: string = SHOP) {
  const { service } = await openWorld(
    `${exampleLog(body, front)}${shop && `//- mendlog.shop.yaml\n${shop}`}`,
  );
  const view = service.view("mem:/ws/log.md");
  if (!view) throw new Error("no log");
  return view;
}
const bill = async (...given: Parameters<typeof source>) => billOf(await source(...given));

describe("labour", () => {
  test("is the hours noted, by day, added up exactly", async () => {
    const { table, draft } = await bill(WORK + HOURS);
    expect(draft).toBeUndefined();
    // 0.1 h x 46 and 1.75 h x 46 and one part at 0.55: 4.60 + 80.50 + 0.55; 19 % of 85.65 is 16.2735.
    expect(table?.lines).toEqual([
      { what: "Work, 2026-03-03: looked at", count: "0.1 h", each: "46.00", total: "4.60" },
      { what: "Work, 2026-03-04: readings; more", count: "1.75 h", each: "46.00", total: "80.50" },
      { what: "74LS04", count: "1", each: "0.55", total: "0.55" },
    ]);
    expect(table?.sums.map(({ text }) => text)).toEqual(["85.65", "16.27", "101.92"]);
  });

  test("is the shop's own hours for each thing done where none are noted, and no plan is in it", async () => {
    const { table } = await bill(WORK);
    expect(table?.lines.map(({ total }) => total)).toEqual(["11.50", "0.55"]);
  });

  test("leaves out what cannot be read, and says so", async () => {
    const { table, notes } = await bill(`${HOURS}- 2026-03-05: -4 h\n`);
    expect(table?.lines.map(({ total }) => total)).toEqual(["4.60", "80.50"]);
    expect(notes[0]).toBe("1 line of hours could not be read and are not in it.");
  });
});

test("a tenth of an hour three hundred times is thirty hours, and no binary fraction of it", async () => {
  const lines = Array.from({ length: 300 }, () => "- 2026-03-04: 0.1 h x\n").join("");
  const { table } = await bill(`## Hours\n\n${lines}`);
  expect(table?.lines[0]).toMatchObject({ count: "30.0 h", total: "1380.00" });
});

describe("what is no bill", () => {
  test.each(["", "stage: repairing\n"])(
    "says that it is a draft while the board is here: %j",
    async (front) => {
      const { draft } = await bill(WORK, front);
      expect(draft).toMatch(/this is a draft and no bill/);
    },
  );

  test("says why nothing is counted without a shop file or a currency", async () => {
    expect((await bill(WORK, undefined, "")).notes[0]).toContain("There is no shop file");
    const without = await bill(WORK, undefined, SHOP.replace("currency: EUR\n", ""));
    expect(without.notes[0]).toContain("names no currency");
    expect(without.table).toBeUndefined();
    expect(without.draft).toContain("this is no bill");
  });

  test("says that it is over what the owner agreed to", async () => {
    const front = "stage: returned\nspending-limit: 5.00\n";
    expect((await bill(WORK, front)).notes[0]).toContain("over the limit of 5.00 EUR");
    expect((await bill(WORK, `${front}approval: { agreed: 2026-03-06 }\n`)).notes.join(" ")).not.toContain(
      "over the limit",
    );
    const back = `${front}approval: { agreed: 2026-03-06, refused: 2026-03-07 }\n`;
    expect((await bill(WORK, back)).notes[0]).toContain("over the limit");
  });
});

test("a tax of 700 % is a finding in the shop file, and counted as it is written", async () => {
  const shop = SHOP.replace("19 %", "700 %");
  const { service } = await openWorld(`${exampleLog(WORK)}//- mendlog.shop.yaml\n${shop}`);
  expect(
    service
      .findings("mem:/ws/mendlog.shop.yaml")
      .map(({ message }) => message)
      .join(" "),
  ).toContain("A tax of `700 %`");
  expect((await bill(WORK, undefined, shop)).table?.sums.map(({ text }) => text)).toEqual([
    "12.05",
    "84.35",
    "96.40",
  ]);
});

test("stock below zero is a finding, and no price is lost by it", async () => {
  const shop = SHOP.replace("quantity: 3", "quantity: -1");
  const { service } = await openWorld(`${exampleLog(WORK)}//- mendlog.shop.yaml\n${shop}`);
  expect(service.findings("mem:/ws/mendlog.shop.yaml")).toHaveLength(1);
});

test("all forms say the same amounts, and the data leaves out who the owner is", async () => {
  const front =
    "stage: returned\nowner: K. <b>Example</b>\ncontact: { phone: '0123', email: k@example.org }\nreturn-address: 1 Pier Road\n";
  const view = await source(WORK + HOURS, front);
  const forms = {
    html: billHtml(billOf(view)),
    md: billMarkdown(billOf(view)),
    json: writeBill(view, "json"),
  };
  for (const text of Object.values(forms))
    for (const sum of ["85.65", "16.27", "101.92"]) expect(text.replaceAll("\\.", ".")).toContain(sum);
  expect(writeBill(view, "json", true)).toContain("1 Pier Road");
  expect(writeBill(view, "html", false)).not.toMatch(/Pier|Example&/);
  expect(forms.html).toContain("1 Pier Road");
  expect(forms.html).not.toContain("<b>Example");
  expect(forms.json).not.toMatch(/Example<|Pier|0123|example\.org/);
  for (const text of Object.values(forms)) expect(text).not.toMatch(/0123|k@example/);
});

test("warranty runs from the day it went back, or as the log says", async () => {
  const until = async (front: string) =>
    (await bill(WORK, front)).facts.find(({ label }) => label === "Warranty until")?.text;
  expect(await until("stage: returned\nreturned: 2026-03-20\n")).toBe("2026-06-18");
  expect(await until("stage: returned\nreturned: 2026-03-20\nwarranty-until: 2026-04-01\n")).toBe(
    "2026-04-01",
  );
  expect(await until("stage: repairing\n")).toBeUndefined();
});
