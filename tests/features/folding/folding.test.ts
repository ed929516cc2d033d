import { expect, it } from "vitest";
import { foldedIn } from "../../support/features";

it("folds what has more than one line, from its first to its last", async () => {
  expect(
    await foldedIn(`---
mendlog: 1
---

# Board 7

<!-- one line -->

## Diode check

<!-- two
lines -->

| Ref | Pin | Reading |
|-|-|-|
| U14 | 1 | 0.5 |

## Letters

| Date | From |
|-|-|
| May | owner |


# Alone
`),
  ).toEqual([
    { kind: "front-matter", first: "---", last: "---" },
    { kind: "section", first: "# Board 7", last: "| May | owner |" },
    { kind: "section", first: "## Diode check", last: "| U14 | 1 | 0.5 |" },
    { kind: "table", first: "| Ref | Pin | Reading |", last: "| U14 | 1 | 0.5 |" },
    { kind: "section", first: "## Letters", last: "| May | owner |" },
    { kind: "comment", first: "<!-- two", last: "lines -->" },
    { kind: "table", first: "| Date | From |", last: "| May | owner |" },
  ]);
});
