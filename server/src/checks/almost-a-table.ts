import type { AlmostTable } from "../syntax/almost-tables";
import { span } from "../text/span";
import { blockCheck } from "./check";
import { exampleLog } from "./example-board";

export default blockCheck({
  code: "almost-a-table",
  title: "Almost a table",
  severity: "warning",
  scope: "block",
  why: "Markdown takes lines of cells for a table only when the second line is a row of dashes with as many cells as the header. One cell more or less, and every reading below is plain text that nothing looks at.",
  remedy: "Give the dashed row exactly as many cells as the header row.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|
^^^^^^^^^^^^^ almost-a-table: 3 cells
| U14 | 1   | 0.58    |
`),
        fixes: [
          {
            title: "Write the dashed row the table needs",
            makes: `
 | Ref | Pin | Reading |
-|-----|-----|
+| --- | --- | ------- |
 | U14 | 1   | 0.58    |
`,
          },
        ],
      },
      {
        text: exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|----o----|
^^^^^^^^^^^^^^^^^^^^^^^ almost-a-table: not made of dashes only
| U14 | 1   | 0.58    |
`),
        fixes: [
          {
            title: "Write the dashed row the table needs",
            makes: `
 | Ref | Pin | Reading |
-|-----|-----|----o----|
+| --- | --- | ------- |
 | U14 | 1   | 0.58    |
`,
          },
        ],
      },
      {
        text: exampleLog(`## Diode check

| Ref | Pin | Reading |
^^^^^^^^^^^^^^^^^^^^^^^ almost-a-table: no row of dashes
| U14 | 1   | 0.58    |
| U14 | 2   | 0.57    |
`),
        fixes: [
          {
            title: "Write the dashed row the table needs",
            makes: `
 | Ref | Pin | Reading |
+| --- | --- | ------- |
 | U14 | 1   | 0.58    |
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |

A pipe | in prose is no table.
`),
    ],
  },
  *run({ block }) {
    for (const { source } of block.almostTables) {
      const { fix, span: whole } = source;
      yield {
        span: fix.span.end > fix.span.start ? fix.span : whole,
        fact: reasonText(source),
        cause: "So these lines are plain text, and none of the readings is checked.",
        step: "Correct the row of dashes.",
        data: {
          newText: fix.newText,
          insert: fix.span.end === fix.span.start ? fix.span.start - whole.start : null,
        },
      };
    }
  },
  fixes: {
    writeDashedRow(finding) {
      const { newText, insert } = finding.data as { newText: string; insert: number | null };
      const at =
        insert === null ? finding.span : span(finding.span.start + insert, finding.span.start + insert);
      return [
        {
          title: "Write the dashed row the table needs",
          edits: [{ span: at, newText }],
          preferred: true,
          certain: true,
        },
      ];
    },
  },
});

function reasonText(almost: AlmostTable): string {
  if (almost.reason === "delimiter-count") {
    return `The row of dashes has ${cells(almost.delimiterCount)}, but the header row has ${cells(almost.headerCount)}.`;
  }
  if (almost.reason === "delimiter-malformed") {
    return "The row under the header is not made of dashes only (colons at the ends are allowed).";
  }
  return "These lines look like a table, but there is no row of dashes under the header.";
}

const cells = (count: number): string => `${count} ${count === 1 ? "cell" : "cells"}`;
