import { defined } from "../base/defined";
import type { Known } from "../judge/context";
import { piecesReceived, type Shop } from "../knowledge/types";
import { arrivals, countedEdit, stockedEdit } from "../review/parts/received";
import { nodeAt } from "../syntax/yaml";
import type { TextEdit } from "../text/edits";
import { type Fix, knowledgeCheck } from "./check";

interface Received {
  readonly part: string;
  /** Pieces to add to the stock; below zero to take out. */
  readonly move: number;
  /** Pieces that came. */
  readonly came: number;
  /** In the stock; absent where it cannot be changed. */
  readonly counted?: TextEdit;
  /** In the order. */
  readonly noted: TextEdit;
}

const SHOP = `//- mendlog.shop.yaml
mendlog-shop: 1
name: Example bench
count-stock: yes
stock:
  - { part: 74LS04, quantity: 3 }
  - { part: 74LS14, quantity: 0 }
orders:
`;

export default knowledgeCheck({
  code: "received-not-stocked",
  title: "Parts that came and that the stock does not count",
  severity: "information",
  scope: "knowledge",
  why: "What came and is not counted is ordered again for the next job.",
  remedy:
    "Put the parts into the stock with the fix: it changes the quantity under `stock` and notes under `stocked` in the order how many were added, so that nothing is added twice. Where you have counted them already, the second fix only notes that. Where not all came, `received-quantity` says how many. Only shops that say `count-stock: yes` are asked.",
  examples: {
    bad: [
      {
        text: `${SHOP}  - { part: 74LS04, quantity: 2, ordered: 2026-03-02, received: 2026-03-09 }
                                                                ^^^^^^^^^^ received-not-stocked: 2 x 74LS04 came, and the stock does not count them
`,
        fixes: [
          {
            title: "Put 2 x 74LS04 into the stock",
            makes: `
 stock:
-  - { part: 74LS04, quantity: 3 }
+  - { part: 74LS04, quantity: 5 }
   - { part: 74LS14, quantity: 0 }
 orders:
-  - { part: 74LS04, quantity: 2, ordered: 2026-03-02, received: 2026-03-09 }
+  - { part: 74LS04, quantity: 2, ordered: 2026-03-02, received: 2026-03-09, stocked: 2 }
`,
          },
          {
            title: "Note that the stock counts 2 x 74LS04 already",
            makes: `
 orders:
-  - { part: 74LS04, quantity: 2, ordered: 2026-03-02, received: 2026-03-09 }
+  - { part: 74LS04, quantity: 2, ordered: 2026-03-02, received: 2026-03-09, stocked: 2 }
`,
          },
        ],
      },
      {
        text: `${SHOP}  - part: "74145"
    quantity: 5
    ordered: 2026-03-02
    received: 2026-03-09 # in two parcels
    received-quantity: 4
                       ^ received-not-stocked: 3 x 74145 came, and the stock does not count them
    stocked: 1
`,
        fixes: [
          {
            title: "Put 3 x 74145 into the stock",
            makes: `
   - { part: 74LS14, quantity: 0 }
+  - { part: "74145", quantity: 3 }
 orders:
@@
     received-quantity: 4
-    stocked: 1
+    stocked: 4
`,
          },
          {
            title: "Note that the stock counts 3 x 74145 already",
            makes: `
     received-quantity: 4
-    stocked: 1
+    stocked: 4
`,
          },
        ],
      },
      {
        text: `${SHOP}  - { part: 74LS04, quantity: 2, ordered: 2026-03-02, received: 2026-03-09, stocked: 3 }
                                                                                     ^ received-not-stocked: The stock counts 1 x 74LS04 more than came
`,
        fixes: [
          {
            title: "Take 1 x 74LS04 out of the stock",
            makes: `
 stock:
-  - { part: 74LS04, quantity: 3 }
+  - { part: 74LS04, quantity: 2 }
   - { part: 74LS14, quantity: 0 }
 orders:
-  - { part: 74LS04, quantity: 2, ordered: 2026-03-02, received: 2026-03-09, stocked: 3 }
+  - { part: 74LS04, quantity: 2, ordered: 2026-03-02, received: 2026-03-09, stocked: 2 }
`,
          },
          {
            title: "Note that the stock counts only 2 x 74LS04",
            makes: `
 orders:
-  - { part: 74LS04, quantity: 2, ordered: 2026-03-02, received: 2026-03-09, stocked: 3 }
+  - { part: 74LS04, quantity: 2, ordered: 2026-03-02, received: 2026-03-09, stocked: 2 }
`,
          },
        ],
      },
    ],
    good: [
      `${SHOP}  - { part: 74LS04, quantity: 2, ordered: 2026-03-02 }
  - { part: 74LS14, quantity: 2, ordered: 2026-03-02, received: 2026-03-09, stocked: 2 }
`,
      `${SHOP.replace("count-stock: yes\n", "")}  - { part: 74LS04, quantity: 2, ordered: 2026-03-02, received: 2026-03-09 }
`,
    ],
  },
  *run({ kind, file, text, knowledge }) {
    if (kind !== "shop" || !file) return;
    const { value, loaded } = file as Known<Shop>;
    for (const arrival of arrivals(value, loaded.tree, knowledge.library)) {
      const { order, move } = arrival;
      const span = ["stocked", "received-quantity", "received"]
        .filter((key) => move < 0 || key !== "stocked")
        .map((key) => nodeAt(loaded.tree, ["orders", order.index, key])?.valueSpan)
        .find((found) => found !== undefined);
      const noted = stockedEdit(text, loaded.tree, order);
      if (!span || !noted) continue;
      const counted = countedEdit(text, loaded.tree, arrival);
      const { part } = order;
      const data: Received = defined({ part, move, came: piecesReceived(order), counted, noted });
      const pieces = `${Math.abs(move)} x ${part}`;
      yield {
        span,
        fact:
          move > 0
            ? `${pieces} came, and the stock does not count them.`
            : `The stock counts ${pieces} more than came.`,
        step: counted
          ? "Bring the stock up to date with the fix."
          : move > 0
            ? "Add the part to `stock`, with 0 pieces, and take the fix then."
            : "Count the drawer, and correct the stock by hand.",
        data,
      };
    }
  },
  fixes: {
    count({ data }) {
      const { part, move, counted, noted } = data as Received;
      if (!counted) return [];
      const title =
        move > 0 ? `Put ${move} x ${part} into the stock` : `Take ${-move} x ${part} out of the stock`;
      return [shown(title, [counted, noted])];
    },
    noteOnly({ data }) {
      const { part, move, came, noted } = data as Received;
      const title =
        move > 0
          ? `Note that the stock counts ${move} x ${part} already`
          : `Note that the stock counts only ${came} x ${part}`;
      return [shown(title, [noted])];
    },
  },
});

const shown = (title: string, edits: readonly TextEdit[]): Fix => ({
  title,
  edits,
  shown: "The stock and what the order added to it",
});
