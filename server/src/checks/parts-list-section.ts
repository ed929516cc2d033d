import { partsSections, writePartsSection } from "../log/parts-section";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

export default documentCheck({
  code: "parts-list-section",
  title: "A written parts list that cannot be kept up to date as it is",
  severity: "warning",
  scope: "document",
  why: "The parts list in a log stands between two comments. Where one of them is gone, or somebody wrote between them, bringing the list up to date could take away what a person typed, so it is not done unasked.",
  remedy:
    "Put the missing comment back, or delete the one that is left. Move what you want to keep below the second comment, then overwrite the list with the action offered there.",
  examples: {
    bad: [
      exampleLog(`## Parts list

<!-- mendlog-parts 12345678+1: written by Mendlog -->
^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ parts-list-section: no \`mendlog-parts-end\` below it

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
        message:
          missing === "end"
            ? "A parts list begins here, but there is no `mendlog-parts-end` below it before the next heading, so it is left as it is. Put the comment back, or delete this one."
            : "A parts list ends here, but there is no `mendlog-parts` above it under the same heading, so it is left as it is. Put the comment back, or delete this one.",
      };
    }
    for (const { span } of sections.slice(1)) {
      yield {
        span: { start: span.start, end: span.start + 4 },
        message:
          "There is another parts list above, and only one can be kept up to date. Delete one of them with its comments.",
      };
    }
    const [first] = sections;
    if (!first?.edited) return;
    yield {
      span: { start: first.span.start, end: first.inner.start },
      severity: "information",
      message:
        "This parts list was changed by hand after it was written, so it is not brought up to date unasked. Move what you want to keep below the second comment, then overwrite the list.",
    };
  },
  noFix: "Which words are to stay is the writer's choice; the list's own action overwrites it when asked.",
});
