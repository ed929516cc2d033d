import { documentCheck } from "./check";
import { problemData, suggestedFixes } from "./problem-fixes";

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
      `---
mendlog: 1
stage: diagnosting
       ^^^^^^^^^^^ front-matter-malformed: diagnosing
---
`,
      `---
mendlog: 1
bord: example
^^^^ front-matter-malformed: board
---
`,
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
  fixes: suggestedFixes,
});
