import { expect, test } from "vitest";
import { mentionLines } from "../../../support/mentions";

const BOARD = `//- b.board.yaml
mendlog-board: 1
id: b
title: Board
parts:
  U14: { device: 74LS04, note: "beside U15, not U150" } # U15 was here
  U15: { device: 74LS14 }
  C1: { value: 1k }
  C4: { value: 1k }
nets:
  "/RESET": [U14.3, U15.A]
  ROW_1: [U14.4]
  E: [U14.5]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, net: ROW_1 }
symptoms:
  dead: { title: Dead, circuits: [] }
`;

const log = (body: string): string => `${BOARD}//- log.md
---
mendlog: 1
job: "7"
board: b
symptoms: [dead, U14 gets hot]
---

${body}`;

const inLog = async (body: string): Promise<string[]> =>
  (await mentionLines(log(body)))
    .filter((line) => line.startsWith("log.md"))
    .map((line) => line.slice("log.md ".length));

const FRONT = [
  "3 7 job front-job !",
  "4 b board front-board",
  "5 dead symptoms front-symptom",
  "5 U14 parts prose",
];

test("a board file names things by its format, in its notes and in its remarks", async () => {
  expect((await mentionLines(BOARD)).map((line) => line.slice("b.board.yaml ".length))).toEqual([
    "2 b board value !",
    "5 U14 parts key !",
    "5 74LS04 device value",
    "5 U15 parts note",
    "5 U15 parts remark",
    "6 U15 parts key !",
    "6 74LS14 device value",
    "7 C1 parts key !",
    "8 C4 parts key !",
    "10 /RESET nets key !",
    "10 U14.3 parts value",
    "10 U15.A parts value",
    "11 ROW_1 nets key !",
    "11 U14.4 parts value",
    "12 E nets key !",
    "12 U14.5 parts value",
    "14 +5V rails key !",
    "14 ROW_1 nets value",
    "16 dead symptoms key !",
  ]);
});

test("a log names parts in the columns for them, over wide columns, in headings, cells and words", async () => {
  const body = `# U14 again

Swapped u14 and U15.3 for C1-C4; U12/U14, no net E, /RESET low on +5V.

## Diode check U15

| Ref | Pin | Reading | Note |
| --- | --- | --- | --- |
| U14 (74LS04) | 3 | 0.58 | as U15 |
| U99 | 1 | 0.58 | |

## Diode check

| Pin | U14 | U15 |
| --- | --- | --- |
| 1 | 0.5 | 0.5 |

<!-- U14: see above -->
U99 too.`;
  expect(await inLog(body)).toEqual([
    ...FRONT,
    "8 U14 parts heading",
    "10 u14 parts prose",
    "10 U15.3 parts prose",
    "10 C1 parts prose",
    "10 C4 parts prose",
    "10 U14 parts prose",
    "10 /RESET nets prose",
    "10 +5V rails prose",
    "12 U15 parts heading",
    "16 U14 parts ref",
    "16 U15 parts cell",
    "17 U99 parts ref",
    "21 U14 parts header",
    "21 U15 parts header",
    "25 U14 parts comment",
    "26 U99 parts prose",
  ]);
});

test("code, addresses, file names and longer words name nothing", async () => {
  const body = `\`U14\` U140 XU14 U14.jpg photos/U14.png <b title="U14"> U14_A https://a.example/U14 [a](U14.md)

    U14

\`\`\`
U14
\`\`\`

| Ref | Note |
| --- | --- |
| \`U14\` | \`U14\` |`;
  expect(await inLog(body)).toEqual(FRONT);
});

test("a log without a board file knows the designators of its own tables", async () => {
  const text = `//- log.md
---
mendlog: 1
---
U7 and U8

## Diode check

| Ref | Pin | Reading |
| --- | --- | --- |
| U7 | 1 | 0.5 |
`;
  expect(await mentionLines(text)).toEqual(["log.md 4 U7 parts prose", "log.md 10 U7 parts ref"]);
});

test("text on lines ended by \\r\\n is named at the right place", async () => {
  const lines = await inLog(
    "## Diode check\n\n| Ref | Pin | Reading |\n| --- | --- | --- |\n| U14 | 1 | 0.5 |\n\nU15".replaceAll(
      "\n",
      "\r\n",
    ),
  );
  expect(lines).toEqual([...FRONT, "12 U14 parts ref", "14 U15 parts prose"]);
});
