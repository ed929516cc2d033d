import { defined } from "../base/defined";
import { judgeDateCode, YEARS_IN_STOCK } from "../compute/dates/judge-date-code";
import { tablesThat } from "../log/in-blocks";
import { dateCodesIn, mayHaveDateCodes } from "../review/dates/from-log";
import { shift } from "../text/span";
import { type CheckOption, documentCheck } from "./check";
import { exampleLog } from "./example-board";

const IN_STOCK: CheckOption = {
  name: "yearsInStock",
  description:
    "Years that a part may have lain in stock before a board was made with it (2: common practice, no source).",
  default: YEARS_IN_STOCK,
  least: 0,
  most: 50,
};

export default documentCheck({
  code: "date-code-doubtful",
  title: "A date code that cannot be, or that is not of the board's years",
  severity: "warning",
  scope: "document",
  why: "A week that does not exist is a slip or a part number; a week 53 may be a maker's own count, which is no ISO week. A part younger than the board was fitted later, and so were its joints: earlier repairs are where faults are.",
  remedy:
    "Read the stamp again: two digits of the year and two of the week. Where a part is younger than the board, look at its joints and for other repairs. A date says nothing of whether the part works.",
  options: [IN_STOCK],
  examples: {
    bad: [
      `---
mendlog: 1
board: example
received: 2026-03-02
---

## Inspection

| Item       | Ref | Result | Date code |
|------------|-----|--------|-----------|
| Chips      | U14 | ok     | 7931      |
| Chips      | U15 | ok     | 7961      |
                              ^^^^ date-code-doubtful: week 61
| Chips      | U30 | ok     | 7953      |
                              ^^^^ date-code-doubtful: "7953" is doubtful: by ISO 8601 1979 had no week 53
| Date codes | U20 | ok     | 8712      |
                              ^^^^ date-code-doubtful: fitted later
`,
    ],
    good: [
      exampleLog(`## Inspection

| Item       | Result | Note         |
|------------|--------|--------------|
| Date codes | ok     | 7931 to 8012 |
| U14        | ok     | a 7404       |

## Parts fitted

| Part   | Ref | Date code |
|--------|-----|-----------|
| 74LS04 | U14 | 9915      |
`),
    ],
  },
  *run({ doc, ctx, front, option }) {
    for (const { start, table } of stamped(doc)) {
      for (const { code, span, context } of dateCodesIn(table, ctx.board?.value, front)) {
        const ruling = judgeDateCode(code.text, context, option(IN_STOCK));
        if (!ruling.ok || (ruling.verdict !== "impossible" && ruling.verdict !== "suspect")) continue;
        yield defined({
          span: shift(span, start),
          ...ruling.says,
          source: ruling.source,
          severity: ruling.verdict === "suspect" ? ("information" as const) : undefined,
        });
      }
    }
  },
  noFix: "Only a second look at the stamp can tell what it says.",
});

const stamped = tablesThat(mayHaveDateCodes);
