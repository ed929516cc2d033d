import { span } from "../text/span";
import { blockCheck } from "./check";
import { exampleLog } from "./example-board";

export default blockCheck({
  code: "cells-beyond-header",
  title: "A row with more cells than its header",
  severity: "warning",
  scope: "block",
  rowByRow: true,
  why: "Markdown leaves out cells beyond the header's last column. No preview and no report shows them, and no check reads them.",
  remedy:
    "Put it into the column before, or give the header another column. A pipe that belongs to a cell's text is written `\\|`.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    | read twice |
                        ^^^^^^^^^^ cells-beyond-header: This row has 4 cells, the header 3
`),
        fixes: [
          {
            title: "Put it into the column before",
            makes: `
 |-----|-----|---------|
-| U14 | 1   | 0.58    | read twice |
+| U14 | 1   | 0.58; read twice |
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Pin | Reading | Note       |
|-----|-----|---------|------------|
| U14 | 1   | 0.58    | read twice |
| U14 | 2   | 0.57    |            | |
`),
    ],
  },
  *run({ block }) {
    for (const { source } of [...block.tables, ...block.proseTables]) {
      for (const { cells } of source.rows) {
        const extra = cells.filter((cell) => cell.extra && cell.text !== "");
        const [first] = extra;
        const last = extra.at(-1);
        const kept = cells.findLast((cell) => !cell.extra);
        if (!first || !last || !kept) continue;
        const texts = [kept, ...extra].map(({ text }) => text).filter((text) => text !== "");
        yield {
          span: span(first.span.start, last.span.end),
          fact: `This row has ${cells.length} cells, the header ${source.columnCount}.`,
          cause: `Markdown leaves out "${extra.map(({ text }) => text).join(" | ")}".`,
          step: "Put it into the column before, or give the header another column.",
          data: {
            newText: texts.join("; ").replaceAll("|", "\\|"),
            before: first.span.start - kept.span.start,
          },
        };
      }
    }
  },
  fixes: {
    moveIntoColumnBefore(finding) {
      const { newText, before } = finding.data as { newText: string; before: number };
      const { start, end } = finding.span;
      return [
        {
          title: "Put it into the column before",
          edits: [{ span: span(start - before, end), newText }],
          preferred: true,
        },
      ];
    },
  },
});
