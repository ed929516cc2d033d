import { partsSections, writePartsSection } from "../log/parts-section";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

export default documentCheck({
  code: "parts-list-section",
  title: "A written parts list that cannot be kept up to date as it is",
  severity: "warning",
  scope: "document",
  why: "The parts list in a log is between two comments. If one of them is gone, or somebody wrote between them, updating the list could delete what a person typed. So it is not updated without asking.",
  remedy:
    "Put the missing comment back, or delete the one that is left. Move what you want to keep below the second comment, then overwrite the list with the action offered there.",
  examples: {
    bad: [
      exampleLog(`## Parts list

<!-- mendlog-parts 12345678+1: written by Mendlog -->
^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ parts-list-section: A parts list begins here, but its \`mendlog-parts-end\` is missing below

Text.
`),
      exampleLog(`## Parts list

<!-- mendlog-parts 12345678+1: written by Mendlog -->
^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ parts-list-section: was changed by hand

Bought at the fair.

<!-- mendlog-parts-end -->
`),
    ],
    good: [
      exampleLog(`## Parts list

${writePartsSection("Nothing was fitted.", 1, "\n")}

Text below it.
`),
    ],
  },
  *run({ doc }) {
    const { sections, loose } = partsSections(doc);
    for (const { span, missing } of loose) {
      yield {
        span,
        fact:
          missing === "end"
            ? "A parts list begins here, but its `mendlog-parts-end` is missing below."
            : "A parts list ends here, but its `mendlog-parts` is missing above.",
        cause: "So the list is left as it is.",
        step: "Put the comment back under the same heading, or delete this one.",
      };
    }
    for (const { span } of sections.slice(1)) {
      yield {
        span: { start: span.start, end: span.start + 4 },
        fact: "There is another parts list above, and only one can be kept up to date.",
        step: "Delete one of them with its comments.",
      };
    }
    const [first] = sections;
    if (!first?.edited) return;
    yield {
      span: { start: first.span.start, end: first.inner.start },
      severity: "information",
      fact: "This parts list was changed by hand, so it is no longer updated.",
      step: "Move what you want to keep below the second comment, then overwrite the list.",
    };
  },
  noFix: "Which words are to stay is the writer's choice; the list's own action overwrites it when asked.",
});
