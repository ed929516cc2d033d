import { defined } from "../base/defined";
import { documentCheck } from "./check";
import { PROBLEM_FIXES, problemData, saidOf } from "./problem-fixes";

export default documentCheck({
  code: "front-matter-malformed",
  title: "Front matter that cannot be used as written",
  severity: "error",
  scope: "document",
  ofSet: "once",
  why: "The front matter says which board the readings are of and how far the job is. A field that cannot be read is missing.",
  remedy:
    "Correct the field. The known fields are `job`, `board`, `revision`, `serial`, `owner`, `contact`, `return-address`, `complaint`, `spending-limit`, `approval`, `received`, `returned`, `warranty-until`, `stock-taken`, `stage`, `symptoms`, `meter`, `reference`, `rom-set` and `comeback-of`. Names of your own start with `x-`, or stand under `log-fields` in the shop file; others are left alone and hinted at.",
  examples: {
    bad: [
      {
        text: `---
mendlog: 1
stage: diagnosting
       ^^^^^^^^^^^ front-matter-malformed: diagnosing
---
`,
        fixes: [
          {
            title: "Change to diagnosing",
            makes: `
 mendlog: 1
-stage: diagnosting
+stage: diagnosing
 ---
`,
          },
        ],
      },
      {
        text: `---
mendlog: 1
bord: example
^^^^ front-matter-malformed: board
---
`,
        fixes: [
          {
            title: "Change to board",
            makes: `
 mendlog: 1
-bord: example
+board: example
 ---
`,
          },
        ],
      },
      `---
mendlog: 1
board: example
shelf: 4
^^^^^ front-matter-malformed: no key
---
`,
      {
        text: `---
mendlog: 1
  job: 2026-014
^^^^^^^^^^^^^^^ front-matter-malformed: indented by 2
board: example
stage: received
---
`,
        fixes: [
          {
            title: "Take the indentation of this line away",
            makes: `
 mendlog: 1
-  job: 2026-014
+job: 2026-014
 board: example
`,
          },
        ],
      },
      {
        text: `---
mendlog: 1
board:example
^^^^^^^^^^^^^ front-matter-malformed: space behind the colon
---
`,
        fixes: [
          {
            title: "Put a space behind the colon",
            makes: `
 mendlog: 1
-board:example
+board: example
 ---
`,
          },
        ],
      },
      {
        text: `---
mendlog: 1
board: example
symptoms:
  - lane 3 never scores
 - hums loudly
^^^^^^^^^^^^^^ front-matter-malformed: indented by 1
---
`,
        fixes: [
          {
            title: "Indent this line by 2",
            makes: `
   - lane 3 never scores
- - hums loudly
+  - hums loudly
 ---
`,
          },
        ],
      },
      {
        text: `---
mendlog: 1
board: example
symptoms:
\t- hums loudly
^ front-matter-malformed: tab
---
`,
        fixes: [
          {
            title: "Put spaces in the place of the tab",
            makes: `
 symptoms:
-\t- hums loudly
+  - hums loudly
 ---
`,
          },
        ],
      },
    ],
    good: [
      `---
mendlog: 1
board: example
stage: diagnosing
received: 2026-03-02
x-shelf: 4
---
`,
    ],
  },
  *run({ doc, ctx }) {
    const { parsed, text, frontMatter } = doc;
    if (!parsed.frontMatter) {
      const end = text.indexOf("\n", parsed.bom);
      yield {
        span: { start: parsed.bom, end: end < 0 ? text.length : end },
        fact: 'The front matter opens with "---" but never closes, so none of its fields is read.',
        step: 'Put a line with "---" alone below its last field.',
      };
      return;
    }
    for (const problem of frontMatter.problems) {
      const { span } = problem;
      const isUnknown = problem.code === "unknown-key";
      if (isUnknown && ctx.shop?.value.logFields?.has(text.slice(span.start, span.end))) continue;
      // A field of one's own does no harm; one that is a slip for a known one leaves that out.
      const severity = !isUnknown ? undefined : problem.suggestion ? ("warning" as const) : ("hint" as const);
      yield defined({ span, ...saidOf(problem), data: problemData(problem), severity });
    }
  },
  fixes: PROBLEM_FIXES,
});
