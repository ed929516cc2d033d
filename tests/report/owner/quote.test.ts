import { parse } from "parse5";
import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { ownerHtml, ownerMarkdown, ownerReport } from "../../../server/src/report/owner";
import { openWorld } from "../../support/workspace";

const LOG = exampleLog(
  "## Work done\n\n| Ref | Action | Part | Note |\n|---|---|---|---|\n| U14 | replaced | 74LS04 | socketed |\n",
  "stage: returned\n",
);
const SHOP = `mendlog-shop: 1
name: Bench
currency: EUR
labour: { rate: "46.00", per: hour, actions: { replace: "0.25", socket: "0.1" } }
stock:
  - { part: 74LS04, quantity: 3, price: "0.55" }
`;

async function reportWith(shop: string) {
  const { service } = await openWorld(`${LOG}//- mendlog.shop.yaml\n${shop}`);
  const view = service.view("mem:/ws/log.md");
  if (!view) throw new Error("no log");
  return ownerReport(view);
}

test.each([
  ["nothing of it", SHOP],
  ["no", `${SHOP}quote: { show: no }\n`],
])("no quote stands on the report where the shop file says %s", async (_what, shop) => {
  const report = await reportWith(shop);
  expect(report.quote).toBeUndefined();
  expect(ownerHtml(report)).not.toContain("<h2>Quote</h2>");
  expect(ownerMarkdown(report)).not.toContain("Quote");
});

test("labour by action, parts, tax and rounding, the same in both forms", async () => {
  const report = await reportWith(`${SHOP}quote: { show: yes, tax: { title: "VAT <b>", rate: 19 % } }\n`);
  // 0.25 h and 0.1 h at 46.00 and one part at 0.55: 11.50 + 4.60 + 0.55; 19 % of 16.65 is 3.1635.
  expect(report.quote?.lines.map(({ total }) => total)).toEqual(["11.50", "4.60", "0.55"]);
  expect(report.quote?.sums.map(({ text }) => text)).toEqual(["16.65", "3.16", "19.81"]);
  const errors: string[] = [];
  const page = ownerHtml(report);
  parse(page, { onParseError: ({ code }) => errors.push(code) });
  expect(errors).toEqual([]);
  expect(page).toContain("<h2>Quote</h2>");
  expect(page).not.toContain("VAT <b>");
  for (const text of ["11.50", "19.81"]) {
    expect(page).toContain(text);
    expect(ownerMarkdown(report).replaceAll("\\.", ".")).toContain(text);
  }
});
