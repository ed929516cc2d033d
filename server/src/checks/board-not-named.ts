import { defined } from "../base/defined";
import { someOf } from "../compute/nets/net-text";
import { type LogDocument, tablesInPieces } from "../log/document";
import type { LogTable } from "../log/model";
import { missingBoardName } from "../review/name-board";
import type { TextEdit } from "../text/edits";
import { documentCheck } from "./check";
import { knownOfBoard } from "./known-of-board";

/** More fixes than these are a list to search in, which completion behind `board:` does better. */
const MOST_OFFERED = 3;

interface Offer {
  readonly title: string;
  readonly edit: TextEdit;
}

interface Offered {
  readonly offers: readonly Offer[];
  readonly known: boolean;
}

export default documentCheck({
  code: "board-not-named",
  title: "Readings of a board that is not named",
  severity: "information",
  scope: "document",
  why: "While the front matter names no board, a reading is judged by what the log itself says of its chips and rails, and where it says nothing, only whether the value is possible at all. No other log of the board, and no board file, can help.",
  remedy:
    "Write `board:` with the id of a board file into the front matter, or with any name where there is no file yet: logs that name the same board share what they say of it.",
  examples: {
    bad: [
      {
        text: `---
mendlog: 1
^^^^^^^^^^ board-not-named: most readings cannot be judged
job: 2026-014
---

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 1.42    |
`,
        fixes: [
          {
            title: "Name the board: example (Example board)",
            makes: `
 job: 2026-014
+board: example
 ---
`,
          },
        ],
      },
      {
        text: `---
mendlog: 1
board:
^^^^^^ board-not-named: Known boards: example
---

## Logic states

| Ref | Pin | State |
|-----|-----|-------|
| U14 | 1   | high  |
`,
        fixes: [
          {
            title: "Name the board: example (Example board)",
            makes: `
 mendlog: 1
-board:
+board: example
 ---
`,
          },
        ],
      },
      {
        text: `---
mendlog: 1
^^^^^^^^^^ board-not-named: no other log shares what is known
job: 2026-014
---

## Diode check U1 (7404)

| Pin | Reading |
|-----|---------|
| 1   | 0.58    |
`,
        fixes: [
          {
            title: "Name the board: example (Example board)",
            makes: `
 job: 2026-014
+board: example
 ---
`,
          },
          {
            title: "Name the board and write a board file from this log",
            answer: "Halden",
            makes: `
 job: 2026-014
+board: Halden
 ---
//- Halden.board.yaml
+mendlog-board: 1
+id: Halden
+title: Halden
+parts:
+  U1: { device: "7404" } # log 2026-014, line 6
`,
          },
        ],
      },
    ],
    good: [
      `---
mendlog: 1
board: example
---

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
`,
      `---
mendlog: 1
---

Nothing is measured yet.
`,
    ],
  },
  *run({ doc, knowledge, front, ctx }) {
    const missing = hasReadings(doc) ? missingBoardName(doc) : undefined;
    if (!missing) return;
    const symptoms = new Set(front.symptoms);
    const boards = [...knowledge.boards.values()]
      .map(({ value }) => ({
        value,
        shared: [...value.symptoms.keys()].filter((id) => symptoms.has(id)).length,
      }))
      .sort((a, b) => b.shared - a.shared || (a.value.id < b.value.id ? -1 : 1))
      .map(({ value }) => value);
    const hint =
      boards.length > 0
        ? `Known boards: ${someOf(boards.map(({ id }) => id))}.`
        : "There is no *.board.yaml file in this workspace yet.";
    const offers = boards
      .slice(0, MOST_OFFERED)
      .map(({ id, title }): Offer => ({ title: `Name the board: ${id} (${title})`, edit: missing.name(id) }));
    const known = knownOfBoard(ctx);
    const data: Offered = { offers, known: known !== undefined };
    yield known
      ? {
          span: missing.span,
          severity: "hint",
          fact: "No board is named, so no other log shares what is known here.",
          cause: `${known.charAt(0).toUpperCase()}${known.slice(1)}.`,
          step: hint,
          data,
        }
      : {
          span: missing.span,
          fact: "No board is named, so most readings cannot be judged.",
          step: `Name the board, or write the number of each chip beside its readings. ${hint}`,
          data,
        };
  },
  fixes: {
    nameBoard({ data }) {
      const { offers } = data as Offered;
      return offers.map(({ title, edit }) =>
        defined({
          title,
          edits: [edit],
          preferred: offers.length === 1 ? true : undefined,
        }),
      );
    },
    writeBoardFile: ({ data }) =>
      (data as Offered).known
        ? [
            {
              title: "Name the board and write a board file from this log",
              edits: [],
              asks: "write-board-file",
            },
          ]
        : [],
  },
});

/** What the eye found and what was done can be told without a board; what a meter or a probe said cannot. */
function hasReadings(doc: LogDocument): boolean {
  for (const { table } of tablesInPieces(doc)) if (isMeasuredTable(table)) return true;
  return false;
}

const isMeasuredTable = ({ readings }: LogTable): boolean =>
  readings.some(({ spec }) => spec.role === "reading" || spec.role === "state");
