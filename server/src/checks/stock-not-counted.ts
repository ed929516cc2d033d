import { frontSpan } from "../log/front";
import { movesInWords, stockEdits, stockMoves } from "../review/parts/stock";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

const SHOP = `//- mendlog.shop.yaml
mendlog-shop: 1
name: Example bench
count-stock: yes
stock:
  - { part: 74LS04, quantity: 3 }
  - { part: 74LS14, quantity: 0 }
`;
const WORK = `## Parts fitted

| Part   | Quantity | Ref      |
|--------|----------|----------|
| 74LS04 | 2        | U14, U15 |
`;

export default documentCheck({
  code: "stock-not-counted",
  title: "Parts fitted that the stock still counts",
  severity: "information",
  scope: "document",
  ofSet: "once",
  why: "A stock that counts what is in a board already promises it to the next job, and it is ordered too late.",
  remedy:
    "Take the parts off the shelf with the fix: it changes the shop file's quantities and notes under `stock-taken` what was taken, so that nothing is taken twice. What is not fitted any more goes back the same way. Only shops that say `count-stock: yes` are asked.",
  examples: {
    bad: [
      {
        text: `${SHOP}//- log.md\n---
mendlog: 1
^^^^^^^^^^ stock-not-counted: The stock is not brought up to date: take 2 x 74LS04
board: example
---

${WORK}`,
        fixes: [
          {
            title: "Take 2 x 74LS04 from the stock",
            makes: `
 board: example
+stock-taken: { "74LS04": 2 }
 ---
//- mendlog.shop.yaml
 stock:
-  - { part: 74LS04, quantity: 3 }
+  - { part: 74LS04, quantity: 1 }
   - { part: 74LS14, quantity: 0 }
`,
          },
        ],
      },
      {
        text: `${SHOP}//- log.md\n---
mendlog: 1
board: example
stock-taken: { 74LS04: 3 }
             ^^^^^^^^^^^^^ stock-not-counted: put 1 x 74LS04 back
---

${WORK}`,
        fixes: [
          {
            title: "Put 1 x 74LS04 back into the stock",
            makes: `
 board: example
-stock-taken: { 74LS04: 3 }
+stock-taken: { "74LS04": 2 }
 ---
//- mendlog.shop.yaml
 stock:
-  - { part: 74LS04, quantity: 3 }
+  - { part: 74LS04, quantity: 4 }
   - { part: 74LS14, quantity: 0 }
`,
          },
        ],
      },
      `${SHOP}//- log.md\n---
mendlog: 1
^^^^^^^^^^ stock-not-counted: The stock has 1 x 74LS14 less than was fitted
board: example
---

## Parts fitted

| Part   | Quantity | Ref |
|--------|----------|-----|
| 74LS14 | 1        | U30 |
`,
    ],
    good: [
      `${SHOP}//- log.md\n---
mendlog: 1
board: example
stock-taken: { 74LS04: 2 }
---

${WORK}`,
      `${SHOP.replace("count-stock: yes\n", "")}//- log.md\n${exampleLog(WORK)}`,
    ],
  },
  *run({ doc, front, ctx, boards }) {
    const moves = stockMoves({ doc, front, ctx, ...(boards ? { boards } : {}) });
    const span = frontSpan(doc, ["stock-taken"]) ?? firstLine(doc);
    if (moves.length === 0 || !span) return;
    const words = movesInWords(moves);
    const short = moves.filter((one) => one.short > 0);
    const missing = short.map((one) => `${one.short} x ${one.part}`).join(", ");
    yield {
      span,
      fact:
        words === ""
          ? `The stock has ${missing} less than was fitted.`
          : `The stock is not brought up to date: ${words}.`,
      cause: words !== "" && missing !== "" ? `It has ${missing} less than was fitted.` : undefined,
      step:
        missing === "" ? "Bring it up to date with the fix." : "Count the drawer, and correct the shop file.",
    };
  },
  fixes: {
    bringUpToDate(_finding, { log, ctx }) {
      const shop = ctx?.shop;
      if (!log || !ctx || !shop) return [];
      const source = { doc: log.doc, front: log.front, ctx, ...(log.set ? { boards: log.set } : {}) };
      const moves = stockMoves(source);
      const edits = stockEdits(source, moves);
      if (!edits) return [];
      const [first = "", ...rest] = movesInWords(moves);
      const words = `${first.toUpperCase()}${rest.join("")}`;
      const isTaken = moves.every(({ move }) => move >= 0);
      const isBack = moves.every(({ move }) => move <= 0);
      const title = isTaken ? `${words} from the stock` : isBack ? `${words} into the stock` : words;
      return [
        {
          title,
          edits: edits.log,
          elsewhere: [{ uri: shop.uri, text: shop.text, edits: edits.shop }],
          shown: "The stock and what this log took of it",
        },
      ];
    },
  },
});

/** The line that says what the file is. */
function firstLine(doc: Parameters<typeof frontSpan>[0]) {
  const value = frontSpan(doc, ["mendlog"]);
  return value && { start: value.start - "mendlog: ".length, end: value.end };
}
