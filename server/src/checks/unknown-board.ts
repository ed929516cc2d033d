import { someOf } from "../compute/nets/net-text";
import { boardMeant } from "../knowledge/board-meant";
import { frontSpan } from "../log/front";
import { documentCheck } from "./check";
import { replaceWithData } from "./fixes";
import { knownOfBoard } from "./known-of-board";

export default documentCheck({
  code: "unknown-board",
  title: "A board no file describes",
  severity: "warning",
  scope: "document",
  why: "Without a board file, only this log and the board's other logs say what is on the board. Nets, circuits, expected readings and the proving list are in the board file only, and a mistyped id finds none.",
  remedy:
    "Correct the id where it is mistyped. Else go on, and write the number of each chip beside its readings; the fix writes a board file from what the logs say.",
  examples: {
    bad: [
      {
        text: `---
mendlog: 1
board: exmaple
       ^^^^^^^ unknown-board: Did you mean example?
---
`,
        fixes: [
          {
            title: "Change to example",
            makes: `
 mendlog: 1
-board: exmaple
+board: example
 ---
`,
          },
        ],
      },
      {
        text: `---
mendlog: 1
board: halden
       ^^^^^^ unknown-board: 1 part is known from this log
---

## Diode check U1 (7404)

| Pin | Reading |
|-----|---------|
| 1   | 0.58    |
`,
        fixes: [
          {
            title: "Write a board file for halden from its logs",
            makes: `
//- halden.board.yaml
+mendlog-board: 1
+id: halden
+title: Halden
+parts:
+  U1: { device: "7404" } # log log.md, line 6
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
`,
      `---
mendlog: 1
job: a board nobody knows yet
---
`,
    ],
  },
  *run({ doc, knowledge, front, ctx }) {
    const id = front.board;
    const span = frontSpan(doc, doc.ofSet?.path ?? ["board"]);
    if (id === undefined || id === "" || !span || knowledge.boards.has(id)) return;
    const boards = [...knowledge.boards.keys()];
    const near = boardMeant(id, boards);
    const known = knownOfBoard(ctx);
    if (near) {
      yield {
        span,
        fact: `No board file has the id "${id}".`,
        step: `Did you mean ${near}?${known ? ` If not: ${known}.` : ""}`,
        data: { newText: near, known: known !== undefined },
      };
    } else if (known) {
      yield {
        span,
        severity: "hint",
        fact: `No board file describes "${id}" yet: ${known}.`,
        data: { known: true },
      };
    } else {
      const others = boards.length > 0 ? ` Known boards: ${someOf(boards.sort())}.` : "";
      yield {
        span,
        severity: "information",
        fact: `No board file describes "${id}", and no log says yet what is on it.`,
        step: `Write the number of each chip beside its readings, as in U5 (7404).${others}`,
        data: { known: false },
      };
    }
  },
  fixes: {
    change: (finding) => replaceWithData(finding, (near) => `Change to ${near}`),
    writeBoardFile({ data }, { log }) {
      const { known } = data as { known: boolean };
      const id = log?.front.board;
      return known && id !== undefined
        ? [{ title: `Write a board file for ${id} from its logs`, edits: [], asks: "write-board-file" }]
        : [];
    },
  },
});
