import { decimalText } from "../compute/money/decimal";
import { frontSpan } from "../log/front";
import { isAgreed, spendingLimitOf } from "../review/money/approval";
import { costPlanned, costPlannedOfSet, exceeds } from "../review/money/cost";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

const SHOP = `//- mendlog.shop.yaml
mendlog-shop: 1
name: Example bench
currency: EUR
labour: { rate: "40.00", per: hour }
quote: { show: no, tax: { title: VAT, rate: 20 % } }
stock:
  - { part: 74LS04, quantity: 3, price: "1.20" }
`;
const WORK = `## Hours

- 2026-03-04: 2.5 h readings

## Work done

| Ref | Action   | Part   |
|-----|----------|--------|
| U14 | replaced | 74LS04 |

## Diode check after repair

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
`;
const log = (front: string): string => `${SHOP}//- log.md\n${exampleLog(WORK, front)}`;

export default documentCheck({
  code: "work-over-limit",
  title: "Work that costs more than the owner agreed to",
  severity: "warning",
  scope: "document",
  ofSet: "once",
  why: "The owner said what may be spent without being asked. What goes beyond it may never be paid, and is the commonest quarrel over a repair (common practice, no source).",
  remedy:
    "Ask the owner, and write the day under `approval` as `asked`, then `agreed` or `refused`; `up-to` where they named an amount. The stage meanwhile is `waiting-for-approval`.",
  noFix: "The answer is the owner's.",
  examples: {
    bad: [
      log(`spending-limit: 100.00
                ^^^^^^ work-over-limit: The work comes to 121.44 EUR, over the limit of 100.00
`),
      log(`spending-limit: 100.00
approval: { asked: 2026-03-05 }
          ^^^^^^^^^^^^^^^^^^^^^ work-over-limit: asked on 2026-03-05, has not agreed
`),
      log(`spending-limit: 100.00
approval: { asked: 2026-03-05, agreed: 2026-03-06, up-to: 120.00 }
                                                          ^^^^^^ work-over-limit: over the limit of 120.00
`),
    ],
    good: [
      log("spending-limit: 121.44\n"),
      log("spending-limit: 100.00\napproval: { asked: 2026-03-05, agreed: 2026-03-06 }\n"),
      log("spending-limit: 100.00\napproval: { agreed: 2026-03-06, up-to: 121.5 }\n"),
    ],
  },
  *run({ doc, front, ctx, boards }) {
    if (front.spendingLimit === undefined) return;
    const limit = spendingLimitOf(front);
    const cost = limit && (boards ? costPlannedOfSet(boards) : costPlanned({ doc, front, ctx }));
    if (!limit || !cost || !exceeds(cost.total, limit) || isAgreed(front)) return;
    const { asked, refused, upTo } = front.approval ?? {};
    const span =
      (upTo === undefined ? undefined : frontSpan(doc, ["approval", "up-to"])) ??
      frontSpan(doc, ["approval"]) ??
      frontSpan(doc, ["spending-limit"]);
    if (!span) return;
    const answer =
      refused !== undefined
        ? `The owner refused on ${refused}.`
        : asked !== undefined
          ? `The owner, asked on ${asked}, has not agreed so far.`
          : "The owner was not asked.";
    yield {
      span,
      fact: `The work comes to ${decimalText(cost.total)} ${cost.currency}, over the limit of ${decimalText(limit)}.`,
      cause: answer,
      step:
        refused !== undefined
          ? "Do no more of it, or find what can be left out."
          : "Ask before more is done, and write the day of the answer under approval: agreed.",
    };
  },
});
