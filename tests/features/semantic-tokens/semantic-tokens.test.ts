import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { tokensIn } from "../../support/features";

/** What follows the front matter. */
const body = async (text: string, front?: string): Promise<string> =>
  (await tokensIn(exampleLog(text, front))).split("---\n\n").slice(1).join("---\n\n");

test("designators, pins, nets and the verdicts of readings", async () => {
  expect(
    await body(`## Diode check U14

U15.3 and U14 pin 2 are on ROW_1; U20 is not, nor is S1 or U99.

| Pin | Reading | Note     |
|-----|---------|----------|
| 1   | 0.58    | like U15 |
| 2   | 1.42    |          |
| 4   | O.58    |          |
| 6   | -0.4    |          |
`),
  ).toBe(`## Diode check [U14:benchPart]

[U15:benchPart].[3:benchPin] and [U14:benchPart] pin [2:benchPin] are on [ROW_1:benchNet]; [U20:benchPart] is not, nor is S1 or U99.

| Pin | Reading | Note     |
|-----|---------|----------|
| [1:benchPin]   | [0.58:benchReading.withinLimits]    | like [U15:benchPart] |
| [2:benchPin]   | [1.42:benchReading.outOfLimits]    |          |
| [4:benchPin]   | O.58    |          |
| [6:benchPin]   | [-0.4:benchReading.impossible]    |          |
`);
});

test("a wide table's headers are parts; rails and signals are nets", async () => {
  expect(
    await body(`## Diode check

| Pin | U14  | U15 |
|-----|------|-----|
| 1   | 0.58 | -   |

## Supply rails, loaded

| Rail | Reading |
|------|---------|
| +5V  | 5.26    |
`),
  ).toBe(`## Diode check

| Pin | [U14:benchPart]  | [U15:benchPart] |
|-----|------|-----|
| [1:benchPin]   | [0.58:benchReading.withinLimits] | -   |

## Supply rails, loaded

| Rail | Reading |
|------|---------|
| [+5V:benchNet]  | [5.26:benchReading.outOfLimits]    |
`);
});

test("nothing in code, comments and HTML, and no words without a board file", async () => {
  expect(await body("```\nU14\n```\n\n<!-- U14 -->\n\n<b title='U14'>x</b>\n")).not.toContain("[");
  const unknown = exampleLog("U14 on ROW_1\n").replace("board: example", "board: none");
  expect(await tokensIn(unknown)).not.toContain("bench");
});
