// What must hold for any log, however it is typed: nothing but padding changes, and formatting twice is formatting once.
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { formatTables } from "../../../server/src/features/format";
import type { LogView } from "../../../server/src/features/view";
import type { Service } from "../../../server/src/service";
import type { Row } from "../../../server/src/syntax/tables";
import { applyEdits } from "../../../server/src/text/edits";
import { demoLogs, openDemo, typedView } from "../../support/demo";

let service: Service;
beforeAll(async () => {
  service = await openDemo();
});

const viewOf = (text: string): LogView => typedView(service, text);

const word = fc.oneof(
  fc.constantFrom(
    ..."0.58|.5|12,25 V|148 ohm|OL|-|4k7|>20M|0.3-0.4|1.|U14|3|pin 7|2026-01-02|ok|\\|||`a \\| b`|`x|\\\\|\\|a\\|# x|- y|> q|1. z|---|:-:|<b>|<!-- x|基板 5 V|e\u0301|👩‍🔧|µ|a\tb|\u00a0x|&amp;|[x]|[x]: y|***|~~~|```"
      .split("|")
      .filter((text) => text !== "|"),
    "\\|",
    "a \\| b",
    "\\\\",
    "",
    "",
    "",
  ),
  fc.string({ maxLength: 6 }).map((text) => text.replace(/[\r\n|]/g, "")),
);
const blanks = fc.constantFrom("", " ", " ", "  ", "\t");
const row = fc
  .record({
    cells: fc.array(fc.tuple(blanks, word, blanks), { minLength: 1, maxLength: 5 }),
    first: fc.constantFrom("|", "|", "|", ""),
    last: fc.constantFrom("|", "|", "|", "", "|  "),
    indent: fc.constantFrom("", "", "", " ", "   ", "    "),
  })
  .map(
    ({ cells, first, last, indent }) =>
      indent + first + cells.map((parts) => parts.join("")).join("|") + last,
  );
const table = fc
  .record({
    header: fc.array(fc.constantFrom("Ref", "Pin", "Reading", "Reading (V)", "Note", "U14", "U15", "", "?"), {
      minLength: 1,
      maxLength: 5,
    }),
    marks: fc.array(fc.constantFrom("-", "---", ":-", "-:", ":-:", " --- ", " :-- "), {
      minLength: 5,
      maxLength: 5,
    }),
    pipes: fc.boolean(),
    indent: fc.constantFrom("", "", "", " ", "   "),
    rows: fc.array(row, { maxLength: 6 }),
  })
  .map(({ header, marks, pipes, indent, rows }) => {
    const around = (cells: readonly string[]) => (pipes ? `|${cells.join("|")}|` : cells.join("|"));
    return [indent + around(header), around(marks.slice(0, header.length)), ...rows];
  });
const block = fc.oneof(
  { weight: 6, arbitrary: table },
  { weight: 1, arbitrary: table.map((lines) => lines.map((line) => `> ${line}`)) },
  {
    weight: 1,
    arbitrary: table.map((lines) => lines.map((line, i) => (i === 0 ? `- ${line}` : `  ${line}`))),
  },
  { weight: 1, arbitrary: table.map((lines) => ["```", ...lines, "```"]) },
  { weight: 1, arbitrary: table.map((lines) => ["<div>", ...lines, "</div>"]) },
  {
    weight: 1,
    arbitrary: table.map((lines) => [
      "<!-- mendlog-parts 1 -->",
      "",
      ...lines,
      "",
      "<!-- mendlog-parts-end -->",
    ]),
  },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      ["## Diode check"],
      ["## Supply rails, loaded"],
      ["## Notes"],
      ["Prose  |  with a pipe  "],
      ["Setext", "---"],
      ["<!-- a", "comment -->"],
    ),
  },
);
const log = fc
  .record({
    bom: fc.constantFrom("", "", "\uFEFF"),
    blocks: fc.array(fc.tuple(block, fc.constantFrom(0, 1, 1, 1, 2)), { minLength: 1, maxLength: 8 }),
    eol: fc.constantFrom("\n", "\n", "\r\n"),
    end: fc.boolean(),
  })
  .map(({ bom, blocks, eol, end }) => {
    const lines = blocks.flatMap(([lines, gap]) => [...lines, ...Array.from({ length: gap }, () => "")]);
    const text = ["---", "mendlog: 1", "board: regatta-controller", "---", "", ...lines].join(eol);
    return bom + text + (end ? eol : "");
  });

const cellsOf = ({ cells }: Row, atLeast: number): string[] => [
  ...cells.map(({ text }) => text),
  ...Array.from({ length: Math.max(0, atLeast - cells.length) }, () => ""),
];

/** All that a reader of Markdown takes from the tables; a cell that is not there reads as an empty one. */
const tablesOf = ({ doc }: LogView) =>
  doc.blocks.flatMap(({ block: { source } }) =>
    source.tables.map(({ header, delimiter, rows, columnCount }) => ({
      header: cellsOf(header, columnCount),
      align: delimiter.cells.map(({ align }) => align),
      rows: rows.map((each) => cellsOf(each, columnCount)),
    })),
  );

/** All that is read from the log, without the cells that hold nothing. */
const readingsOf = ({ doc }: LogView) =>
  doc.blocks.flatMap(({ block: { tables } }) =>
    tables.flatMap(({ readings, procedure, shape }) =>
      readings
        .filter(({ value }) => value.typed !== "")
        .map(({ row, subject, measure, value }) => ({
          procedure: procedure.id,
          shape,
          row,
          subject: Object.entries(subject).map(([role, cell]) => `${role} ${cell?.text}`),
          measure,
          value,
        })),
    ),
  );

/** The text without the lines of the tables at root level. */
function outsideTables({ doc }: LogView): string {
  let text = "";
  let from = 0;
  for (const { start, block: placed } of doc.blocks) {
    for (const { span } of placed.source.tables) {
      const lineStart = Math.max(doc.text.lastIndexOf("\n", start + span.start - 1) + 1, from);
      text += doc.text.slice(from, lineStart);
      from = start + span.end;
      while (/[ \t]/.test(doc.text[from] ?? "")) from++;
    }
  }
  return text + doc.text.slice(from);
}

function checkFormatting(text: string): boolean {
  const before = viewOf(text);
  const edits = formatTables(before);
  const made = applyEdits(text, edits);
  const tables = tablesOf(before);
  const readings = readingsOf(before);
  const outside = outsideTables(before);
  const after = viewOf(made);
  expect(tablesOf(after)).toEqual(tables);
  expect(readingsOf(after)).toEqual(readings);
  expect(outsideTables(after)).toBe(outside);
  expect(formatTables(after)).toEqual([]);
  // No character but blanks, pipes, dashes and colons comes or goes.
  expect(made.replace(/[ \t|:-]/g, "")).toBe(text.replace(/[ \t|:-]/g, ""));
  for (const { span, newText } of edits)
    expect(text.slice(span.start, span.end) + newText).not.toMatch(/[\r\n]/);
  return edits.length > 0;
}

describe("formatting", () => {
  it("keeps every cell, every reading and all that is no table, and has nothing left to do afterwards", () => {
    let changed = 0;
    fc.assert(
      fc.property(log, (text) => {
        if (checkFormatting(text)) changed += 1;
      }),
      { numRuns: 300 },
    );
    // The examples are worth something only if most of them have something to be put in line.
    expect(changed).toBeGreaterThan(150);
  });

  it("of a range does a part of what formatting the whole does", () => {
    fc.assert(
      fc.property(log, fc.double({ min: 0, max: 1, noNaN: true }), fc.nat(200), (text, at, length) => {
        const view = viewOf(text);
        const start = Math.floor(at * text.length);
        const all = formatTables(view);
        const some = formatTables(view, { start, end: Math.min(text.length, start + length) });
        for (const edit of some) expect(all).toContainEqual(edit);
        expect(formatTables(view, { start: 0, end: text.length })).toEqual(all);
      }),
      { numRuns: 150 },
    );
  });

  it.each(demoLogs.map(([uri, text]) => [uri.split("/").at(-1), text] as const))("keeps %s", (_, text) => {
    checkFormatting(text);
  });
});
