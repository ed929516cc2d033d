import { wordsOfRows } from "../syntax/tables";
import { startOfLine } from "../text/blanks";
import { slice, span } from "../text/span";
import { blockCheck } from "./check";
import { exampleLog } from "./example-board";

export default blockCheck({
  code: "text-in-table",
  title: "A line of text that became a row of the table above it",
  severity: "warning",
  scope: "block",
  why: "Markdown takes every line right under a table for another row, pipes or none. A sentence there shows in the first column of every preview, and is read as a designator or a rail.",
  remedy: "Leave an empty line between the table and the text.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
All of U14 read alike, so the ground lead was fine.
^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ text-in-table: Leave an empty line
`),
        fixes: [
          {
            title: "Put an empty line above it",
            makes: `
 | U14 | 1   | 0.58    |
+
 All of U14 read alike, so the ground lead was fine.
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

All of U14 read alike, so the ground lead was fine.
`),
      exampleLog(`## Diode check

Ref | Pin | Reading
----|-----|--------
U14 | 1   | 0.58
`),
    ],
  },
  *run({ block }) {
    for (const { source } of [...block.tables, ...block.proseTables]) {
      if (source.columnCount < 2 || !wordsOfRows(source).some(({ cells }) => cells.length === 1)) continue;
      // Of several lines the first is enough: what is put right there is right for all below it.
      const row = source.rows.find(
        ({ cells, span: whole }) => cells.length === 1 && isText(slice(block.source.text, whole)),
      );
      if (!row) continue;
      yield {
        span: row.span,
        fact: "This line is right under the table, so Markdown makes it another row.",
        step: "Leave an empty line above it.",
      };
    }
  },
  fixes: {
    emptyLineAbove(finding, { text }) {
      // As the line above ends, whatever the rest of the file does.
      const lineStart = startOfLine(text, finding.span.start);
      const eol = /(?:\r\n|\r|\n)$/.exec(text.slice(0, lineStart))?.[0] ?? "\n";
      return [
        {
          title: "Put an empty line above it",
          edits: [{ span: span(lineStart, lineStart), newText: eol }],
          preferred: true,
          certain: true,
        },
      ];
    },
  },
});

/** More than one word: a single one may be a cell whose row is still being typed. */
const isText = (line: string): boolean => !line.includes("|") && /\S\s+\S/.test(line.trim());
