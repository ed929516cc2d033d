import { documentCheck } from "./check";
import { PROBLEM_FIXES, problemData } from "./problem-fixes";

export default documentCheck({
  code: "front-matter-malformed",
  title: "Front matter that cannot be used as written",
  severity: "error",
  scope: "document",
  why: "The front matter says which board the readings are of and where the job stands. A field that cannot be read is as good as missing.",
  remedy:
    "Correct the field. The known fields are `job`, `board`, `revision`, `serial`, `owner`, `received`, `returned`, `stage`, `symptoms`, `meter`, `reference`, `rom-set` and `comeback-of`; names of your own start with `x-`.",
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
  *run({ doc }) {
    const { parsed, text, frontMatter } = doc;
    if (!parsed.frontMatter) {
      const end = text.indexOf("\n", parsed.bom);
      yield {
        span: { start: parsed.bom, end: end < 0 ? text.length : end },
        message:
          'The front matter opens with "---" but never closes. Put a line with "---" alone behind its last field; until then none of its fields is read.',
      };
      return;
    }
    for (const problem of frontMatter.problems) {
      const { span, message } = problem;
      yield { span, message, data: problemData(problem) };
    }
  },
  fixes: PROBLEM_FIXES,
});
