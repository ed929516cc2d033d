import { frontSpan } from "../log/front";
import { documentCheck } from "./check";

const EARLIER = `//- logs/2025-081.md
---
mendlog: 1
job: 2025-081
board: example
serial: "01873"
received: 2025-09-01
returned: 2025-09-20
stage: returned
---

<!-- mendlog-allow stage-ahead-of-evidence: written up on paper -->
<!-- mendlog-allow returned-unproven: written up on paper -->
`;

export default documentCheck({
  code: "comeback-not-linked",
  title: "A board that was here before, without a word of it",
  severity: "hint",
  scope: "document",
  why: "What was done to this very board last time is the first thing to look at, and a comeback that is not marked as one is missing from the shop's own failures.",
  remedy: "Name the earlier job under `comeback-of`, or leave it where the board is here for something else.",
  examples: {
    bad: [
      {
        text: `${EARLIER}//- logs/2026-014.md
---
mendlog: 1
job: 2026-014
board: example
serial: "01873"
        ^^^^^^^ comeback-not-linked: This board was here before, in job 2025-081 (returned 2025-09-20)
received: 2026-03-02
stage: received
---
`,
        fixes: [
          {
            title: "Name 2025-081 as the earlier job",
            makes: `
 stage: received
+comeback-of: 2025-081
 ---
`,
          },
        ],
      },
    ],
    good: [
      `${EARLIER}//- logs/2026-014.md
---
mendlog: 1
job: 2026-014
board: example
serial: "01874"
received: 2026-03-02
---
`,
    ],
  },
  *run({ doc, front, related }) {
    const earlier = related?.earlier;
    const at = doc.parsed.frontMatter?.content.end;
    const span = frontSpan(doc, ["serial"]);
    if (!earlier?.job || !span || at === undefined || front.comebackOf !== undefined) return;
    if (front.stage === "returned" || front.stage === "scrapped") return;
    const when = earlier.returned === undefined ? "" : ` (returned ${earlier.returned})`;
    yield {
      span,
      fact: `This board was here before, in job ${earlier.job}${when}.`,
      step: "Look at what was done then. If it is back because of it, name that job under comeback-of.",
      related: [{ uri: earlier.uri, span: { start: 0, end: 0 }, message: `job ${earlier.job}` }],
      data: { job: earlier.job, at },
    };
  },
  fixes: {
    nameEarlierJob(finding, { text }) {
      const { job, at } = (finding.data ?? {}) as { job?: string; at?: number };
      if (job === undefined || at === undefined || /^comeback-of[ \t]*:/m.test(text.slice(0, at))) return [];
      const eol = text.includes("\r\n") ? "\r\n" : "\n";
      const gap = text.slice(0, at).endsWith("\n") ? "" : eol;
      const value = /^[\w][\w./-]*$/.test(job) ? job : JSON.stringify(job);
      const newText = `${gap}comeback-of: ${value}${gap === "" ? eol : ""}`;
      return [
        {
          title: `Name ${job} as the earlier job`,
          edits: [{ span: { start: at, end: at }, newText }],
          preferred: true,
        },
      ];
    },
  },
});
