import { defined } from "../base/defined";
import { hasBoardFile } from "../judge/context";
import { frontSpan } from "../log/front";
import { isSameBoard } from "../review/comeback";
import { documentCheck } from "./check";
import { replaceWithData } from "./fixes";

const EARLIER = `//- logs/2025-081.md
---
mendlog: 1
job: 2025-081
board: example
serial: "01873"
received: 2025-09-01
---
`;

export default documentCheck({
  code: "comeback-unknown",
  title: "A comeback of a job that is not there, or was on another board",
  severity: "warning",
  scope: "document",
  why: "A board that comes back is first asked what was done to it last time. With the wrong number the answer is about another board, and the history of both is spoilt.",
  remedy: "Correct the number, or the serial number of one of the two logs.",
  examples: {
    bad: [
      {
        text: `${EARLIER}//- logs/2026-014.md
---
mendlog: 1
job: 2026-014
board: example
comeback-of: 2025-018
             ^^^^^^^^ comeback-unknown: Did you mean 2025-081?
---
`,
        fixes: [
          {
            title: "Change to 2025-081",
            makes: `
 board: example
-comeback-of: 2025-018
+comeback-of: 2025-081
 ---
`,
          },
        ],
      },
      `${EARLIER}//- logs/2026-014.md
---
mendlog: 1
job: 2026-014
board: example
serial: "00942"
comeback-of: 2025-081
             ^^^^^^^^ comeback-unknown: serial 01873, this one is 00942
---
`,
      `${EARLIER}//- logs/2026-014.md
---
mendlog: 1
job: 2026-014
comeback-of: 2026-014
             ^^^^^^^^ comeback-unknown: 2026-014 is this job's own number
---
`,
    ],
    good: [
      `${EARLIER}//- logs/2026-014.md
---
mendlog: 1
job: 2026-014
board: example
serial: "01873"
received: 2026-03-02
comeback-of: 2025-081
---
`,
    ],
  },
  *run({ doc, ctx, front, related }) {
    const number = front.comebackOf;
    const span = frontSpan(doc, ["comeback-of"]);
    if (number === undefined || !span || !related) return;
    if (related.named.length === 0) {
      if (front.job !== undefined && front.job.trim().toLowerCase() === number.trim().toLowerCase()) {
        yield {
          span,
          fact: `${number} is this job's own number.`,
          step: "Name the earlier job.",
        };
        return;
      }
      const near = related.near;
      yield defined({
        span,
        fact: `No log in this workspace has the job number ${number}.`,
        step:
          near === undefined
            ? "Correct it, or add the earlier log to the workspace."
            : `Did you mean ${near}?`,
        data: near === undefined ? undefined : { newText: near },
      });
      return;
    }
    if (related.named.some((job) => isSameBoard(job, front))) return;
    const differs = related.named.map((job) => {
      // Which board is meant is not known while no file describes it; that is told at the board.
      if (hasBoardFile(ctx) && job.board !== undefined && job.board !== front.board)
        return { job, how: `board ${job.board}, this one is ${front.board}` };
      if (job.serial !== undefined && front.serial !== undefined && !sameSerial(job.serial, front.serial))
        return { job, how: `serial ${job.serial}, this one is ${front.serial}` };
      return undefined;
    });
    const [first] = differs;
    // Of several logs with the number one may be meant that fits.
    if (!first || differs.includes(undefined)) return;
    yield {
      span,
      fact: `Job ${number} was on another board: ${first.how}.`,
      step: "Correct the number, or the log that is wrong.",
      related: [{ uri: first.job.uri, span: { start: 0, end: 0 }, message: `job ${number}` }],
    };
  },
  fixes: { change: (finding) => replaceWithData(finding, (number) => `Change to ${number}`) },
});

const sameSerial = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();
