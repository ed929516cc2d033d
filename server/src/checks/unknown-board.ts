import { boardMeant } from "../knowledge/board-meant";
import { frontSpan } from "../log/front";
import { documentCheck } from "./check";
import { replaceWithData } from "./fixes";

export default documentCheck({
  code: "unknown-board",
  title: "A board no file describes",
  severity: "warning",
  scope: "document",
  why: "Without its board file the log has no designators, nets or limits to hold the readings against: hardly anything in it can be judged.",
  remedy:
    "Correct the id, or write a `*.board.yaml` file with this id. A few parts and rails are enough to start with.",
  examples: {
    bad: [
      `---
mendlog: 1
board: exmaple
       ^^^^^^^ unknown-board: Did you mean example?
---
`,
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
  *run({ doc, knowledge, front }) {
    const id = front.board;
    const span = frontSpan(doc, ["board"]);
    if (id === undefined || id === "" || !span || knowledge.boards.has(id)) return;
    const known = [...knowledge.boards.keys()];
    const near = boardMeant(id, known);
    const hint = near
      ? `Did you mean ${near}?`
      : known.length > 0
        ? `Known boards: ${known.sort().join(", ")}.`
        : "There is no *.board.yaml file in this workspace yet.";
    yield {
      span,
      message: `No board file has the id "${id}", so its readings cannot be judged. ${hint}`,
      ...(near ? { data: { newText: near } } : {}),
    };
  },
  fixes: (finding) => replaceWithData(finding, (id) => `Change to ${id}`),
});
