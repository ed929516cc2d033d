// What was ordered and has not come is not ordered again.
import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { orderText } from "../../../server/src/report/parts/order";
import { orderList } from "../../../server/src/review/parts/order";
import { applyEdits } from "../../../server/src/text/edits";
import { openWorld } from "../../support/workspace";

const LOG = exampleLog(
  "## Work done\n\n| Ref | Action | Part |\n|---|---|---|\n| U14 | to be replaced | 74LS04 |\n| U15 | to be replaced | 74LS04 |\n",
  "job: 2026-014\n",
);
const shop = (orders: string) =>
  `mendlog-shop: 1\nname: Bench\ncurrency: EUR\nstock:\n  - { part: 74LS04, quantity: 0, price: "0.55" }\norders: [${orders}]\n`;

async function ordered(orders: string) {
  const { service } = await openWorld(`${LOG}//- mendlog.shop.yaml\n${shop(orders)}`);
  const view = service.view("mem:/ws/log.md");
  if (!view) throw new Error("no log");
  const list = orderList([view], view.ctx.shop?.value, view.ctx.library, () => "2026-014");
  const line = list.lines.find(({ part }) => part === "74LS04");
  return {
    line,
    text: orderText([{ folder: ".", list }]),
    findings: service.findings("mem:/ws/mendlog.shop.yaml"),
  };
}

test("nothing on the way: all of it", async () => {
  expect((await ordered("")).line).toMatchObject({ needed: 2, order: 2, onTheWay: 0, total: "1.10" });
});

test("one of two on the way: the other", async () => {
  const { line, text } = await ordered("{ part: 74LS04, quantity: 1, ordered: 2026-03-10 }");
  expect(line).toMatchObject({ order: 1, onTheWay: 1, total: "0.55" });
  expect(text).toContain(" on the way\n  1 x 74LS04");
});

test("more on the way than is needed: nothing, and never less", async () => {
  const { line } = await ordered("{ part: 74ls04, quantity: 9, ordered: 2026-03-10 }");
  expect(line).toMatchObject({ order: 0, onTheWay: 2 });
});

test("what came is on the way no more, and cannot have come before it was ordered", async () => {
  const { line, findings } = await ordered(
    "{ part: 74LS04, quantity: 2, ordered: 2026-03-10, received: 2026-03-09 }",
  );
  expect(line).toMatchObject({ order: 2, onTheWay: 0 });
  expect(findings.map(({ message }) => message).join(" ")).toContain("before it was ordered on 2026-03-10");
});

test("of a part delivery the rest is still on the way", async () => {
  const { line } = await ordered(
    "{ part: 74LS04, quantity: 3, ordered: 2026-03-10, received: 2026-03-12, received-quantity: 2 }",
  );
  expect(line).toMatchObject({ order: 1, onTheWay: 1 });
});

const COUNTED = `mendlog-shop: 1
name: Bench
count-stock: yes
stock:
  - { part: "7400", quantity: many }
  - { part: 74LS04, quantity: 1 } # drawer 3
  - { part: 74LS14, quantity: 4 }
orders:
  - { part: "7400", ordered: 2026-03-09 }
  - { part: 74ls04, quantity: 2, ordered: 2026-03-10, received: 2026-03-12 }
`;
const SHOP_FILE = "mem:/ws/mendlog.shop.yaml";

/** The shop file and the log after the fix of that title, each as the fix leaves it. */
async function fixed(log: string, shopFile: string, at: "log.md" | "mendlog.shop.yaml", title: string) {
  const { service } = await openWorld(`//- log.md\n${log}//- mendlog.shop.yaml\n${shopFile}`);
  const uri = `mem:/ws/${at}`;
  const texts: Record<string, string> = { [SHOP_FILE]: shopFile, "mem:/ws/log.md": log };
  for (const fix of service.findings(uri).flatMap((finding) => service.fixes(uri, finding))) {
    if (fix.title !== title) continue;
    texts[uri] = applyEdits(texts[uri] ?? "", fix.edits);
    for (const { uri: other, edits } of fix.elsewhere ?? [])
      texts[other] = applyEdits(texts[other] ?? "", edits);
    return { log: texts["mem:/ws/log.md"] ?? "", shop: texts[SHOP_FILE] ?? "" };
  }
  throw new Error(`no fix "${title}"`);
}

const FITTED = `---
mendlog: 1
job: 2026-014
---

## Parts fitted

| Part   | Quantity | Ref |
|--------|----------|-----|
| 74LS04 | 1        | U14 |
`;
const codes = async (log: string, shopFile: string): Promise<readonly string[]> => {
  const { service } = await openWorld(`//- log.md\n${log}//- mendlog.shop.yaml\n${shopFile}`);
  return [...service.findings("mem:/ws/log.md"), ...service.findings(SHOP_FILE)].map(({ code }) => code);
};

test("two received and one fitted leave the shelf one higher, each counted once", async () => {
  const put = await fixed(FITTED, COUNTED, "mendlog.shop.yaml", "Put 2 x 74ls04 into the stock");
  // An entry in front of it that cannot be read moves nothing to another part.
  expect(put.shop).toBe(
    COUNTED.replace("quantity: 1 }", "quantity: 3 }").replace("2026-03-12 }", "2026-03-12, stocked: 2 }"),
  );
  expect(await codes(FITTED, put.shop)).not.toContain("received-not-stocked");
  const taken = await fixed(FITTED, put.shop, "log.md", "Take 1 x 74LS04 from the stock");
  expect(taken.shop).toContain("{ part: 74LS04, quantity: 2 } # drawer 3");
  expect(taken.shop).toContain("{ part: 74LS14, quantity: 4 }");
  const after = await codes(taken.log, taken.shop);
  expect(after).not.toContain("received-not-stocked");
  expect(after).not.toContain("stock-not-counted");
});

test.each([
  ["received-quantity: 3", "3 x `74LS04` were received, and 2 ordered"],
  ["received-quantity: -1", "received-quantity"],
  ["received-quantity: 1.5", "received-quantity"],
  ["stocked: -2", "stocked"],
  ["stocked: 0.5", "stocked"],
])("%s is told at its place", async (field, words) => {
  const text = `mendlog-shop: 1\nname: Bench\ncount-stock: yes\nstock:\n  - { part: 74LS04, quantity: 1 }\norders:\n  - { part: 74LS04, quantity: 2, ordered: 2026-03-10, received: 2026-03-12, ${field} }\n`;
  const { service } = await openWorld(`//- mendlog.shop.yaml\n${text}`);
  const found = service.findings(SHOP_FILE);
  const wrong = found.find(({ code }) => code === "knowledge-file-invalid");
  expect(wrong?.message).toContain(words);
  expect(text.slice(wrong?.span.start, wrong?.span.end)).toBe(field.split(": ")[1]);
  // Nothing is counted by a number that could not be read.
  const isRead = field.endsWith(": 3");
  expect(found.some(({ code }) => code === "received-not-stocked")).toBe(isRead);
});

test("what the log took is kept, and nothing taken again, while a count in it cannot be read", async () => {
  const log = FITTED.replace("job: 2026-014\n", "job: 2026-014\nstock-taken: { 74LS14: 1, 74LS04: some }\n");
  await expect(fixed(log, COUNTED, "log.md", "Take 1 x 74LS04 from the stock")).rejects.toThrow("no fix");
});

test("lines that end with a return and a line feed stay so", async () => {
  const shopFile = COUNTED.replace(
    "  - { part: 74ls04, quantity: 2, ordered: 2026-03-10, received: 2026-03-12 }\n",
    "  - part: 1N4148\n    quantity: 9\n    ordered: 2026-03-10\n    received: 2026-03-12 # all\n",
  ).replaceAll("\n", "\r\n");
  const put = await fixed(FITTED, shopFile, "mendlog.shop.yaml", "Put 9 x 1N4148 into the stock");
  expect(put.shop).toBe(
    shopFile
      .replace("quantity: 4 }\r\n", "quantity: 4 }\r\n  - { part: 1N4148, quantity: 9 }\r\n")
      .replace("# all\r\n", "# all\r\n    stocked: 9\r\n"),
  );
});
