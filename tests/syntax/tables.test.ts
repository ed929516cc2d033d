import fc from "fast-check";
import type { TableRow } from "mdast";
import { describe, expect, it } from "vitest";
import type { SyntaxBlock } from "../../server/src/syntax/block";
import { createBlockCache, parseBlocks } from "../../server/src/syntax/blocks";
import { nodeText } from "../../server/src/syntax/plain-text";
import { encodeCell, type Row, type Table } from "../../server/src/syntax/tables";
import { slice } from "../../server/src/text/span";

function block(text: string): SyntaxBlock {
  const { blocks } = parseBlocks(text, createBlockCache());
  expect(blocks).toHaveLength(1);
  return blocks[0]!.source;
}

function table(text: string): Table {
  const { tables } = block(text);
  expect(tables).toHaveLength(1);
  return tables[0]!;
}

const words = (row: Row | undefined): string[] => row?.cells.map(({ text }) => text) ?? [];

describe("a table", () => {
  const text = "Text\n| Ref | Pin |\n|:----|----:|\n| U14 | 1 |\n| U15 |  2\t|\n\nafter";

  it("knows its rows, cells and alignments", () => {
    const one = table(text);
    expect(one.columnCount).toBe(2);
    expect(words(one.header)).toEqual(["Ref", "Pin"]);
    expect(one.rows.map(words)).toEqual([
      ["U14", "1"],
      ["U15", "2"],
    ]);
    expect(one.delimiter.cells.map(({ align }) => align)).toEqual(["left", "right"]);
    expect(one.delimiter.cells.map(({ span }) => slice(text, span))).toEqual([":----", "----:"]);
  });

  it("knows exactly where each is", () => {
    const one = table(text);
    expect(slice(text, one.span)).toBe(text.slice(5, text.indexOf("\n\nafter")));
    expect(slice(text, one.delimiter.span)).toBe("|:----|----:|");
    const [, second] = one.rows;
    expect(slice(text, second!.span)).toBe("| U15 |  2\t|");
    expect(second!.cells.map(({ span }) => slice(text, span))).toEqual(["U15", "2"]);
    expect(second!.cells.map(({ outer }) => slice(text, outer))).toEqual([" U15 ", "  2\t"]);
  });

  it("gives an empty cell a place to type in", () => {
    const given = "|a|b|c|\n|-|-|-|\n||  | |\n";
    const { cells } = table(given).rows[0]!;
    expect(cells.map(({ text: t }) => t)).toEqual(["", "", ""]);
    expect(cells.map(({ span }) => [span.start - 16, span.end - 16])).toEqual([
      [1, 1],
      [3, 3],
      [6, 6],
    ]);
  });

  it("reads an escaped pipe as a pipe, and leaves other escapes", () => {
    const given = "| a | b |\n|---|---|\n| 1 \\| 2 | `x\\|y` \\* |\n| \\\\| z |\n";
    const one = table(given);
    expect(words(one.rows[0])).toEqual(["1 | 2", "`x|y` \\*"]);
    expect(slice(given, one.rows[0]!.cells[0]!.span)).toBe("1 \\| 2");
    expect(words(one.rows[1])).toEqual(["\\\\", "z"]);
  });

  it("is read without outer pipes, to the ends of the lines", () => {
    const given = "a | b\n--- | ---\n  1 | 2  \n3\n";
    const one = table(given);
    expect(one.rows.map(words)).toEqual([["1", "2"], ["3"]]);
    expect(slice(given, one.rows[0]!.span)).toBe("1 | 2");
    expect(one.rows[0]!.cells.map(({ outer }) => slice(given, outer))).toEqual(["  1 ", " 2  "]);
  });

  it("says how many cells a row lacks, and which are too many", () => {
    const one = table("|a|b|c|\n|-|-|-|\n|1|\n|1|2|3|4|5|\n|1|2|3|\n");
    expect(one.rows.map(({ missing }) => missing)).toEqual([2, 0, 0]);
    expect(one.rows[1]!.cells.map(({ extra }) => extra)).toEqual([false, false, false, true, true]);
    expect(one.rows.map(({ cells }) => cells.length)).toEqual([1, 5, 3]);
  });

  it.each(["\r\n", "\r"])("has exact places where lines end in %j", (end) => {
    const given = text.replaceAll("\n", end);
    const one = table(given);
    expect([one.header, ...one.rows].map(({ span }) => slice(given, span))).toEqual([
      "| Ref | Pin |",
      "| U14 | 1 |",
      "| U15 |  2\t|",
    ]);
    expect([one.header, ...one.rows].flatMap(words)).toEqual(["Ref", "Pin", "U14", "1", "U15", "2"]);
  });

  it("ends where a comment begins", () => {
    const given = "| a |\n|---|\n| 1 |\n<!-- x -->\n";
    expect(table(given).rows).toHaveLength(1);
    expect(block(given).comments.map(({ text: t }) => t)).toEqual(["x"]);
  });

  it("is not looked for in lists and quotes", () => {
    expect(block("> | a |\n> |---|\n\n- | a |\n  |---|\n").tables).toEqual([]);
  });

  it("counts from the block, not the document", () => {
    const { blocks } = parseBlocks("# one\n\n# two\n| a |\n|---|\n", createBlockCache());
    expect(blocks[1]!.source.tables[0]!.span.start).toBe(6);
  });

  it("is computed once", () => {
    const one = block(text);
    expect(one.tables).toBe(one.tables);
  });
});

describe("generated tables", () => {
  // No character that means something inside a line, so that what a reader sees is what was typed.
  const plainCell = fc.string({
    unit: fc.constantFrom(
      "a",
      "B",
      "0",
      ".",
      "5",
      "\u00B5",
      "\u03A9",
      "|",
      " ",
      "\u{1F600}",
      ",",
      "%",
      "\u00A0",
    ),
    maxLength: 6,
  });
  const pad = fc.constantFrom("", " ", "  ", "\t");
  const generated = fc
    .record({
      columns: fc.integer({ min: 1, max: 5 }),
      rows: fc.array(fc.array(fc.tuple(pad, plainCell, pad), { minLength: 1, maxLength: 7 }), {
        maxLength: 6,
      }),
      end: fc.constantFrom("\n", "\r\n", "\r"),
      leading: fc.boolean(),
      trailing: fc.boolean(),
      indent: fc.constantFrom("", " ", "   "),
      before: fc.constantFrom("", "text\n", "text\r\n", "<!-- c -->\n", "\n\n"),
    })
    .map(({ columns, rows, end, leading, trailing, indent, before }) => {
      const line = (cells: readonly string[]): string =>
        indent + (leading ? "|" : "") + cells.join("|") + (trailing || cells.length === 1 ? "|" : "");
      const header = line(Array.from({ length: columns }, (_, i) => ` h${i} `));
      const delimiter = line(Array.from({ length: columns }, () => "---"));
      const body = rows.map((cells) => line(cells.map(([l, c, r]) => l + encodeCell(c) + r)));
      return before + [header, delimiter, ...body].join(end) + end;
    });

  it("have the cells and the words that the parser reads", () => {
    let compared = 0;
    fc.assert(
      fc.property(generated, (text) => {
        const one = block(text);
        const nodes = one.tree.children.filter((node) => node.type === "table");
        expect(one.tables).toHaveLength(nodes.length);
        for (const [i, node] of nodes.entries()) {
          const ours = one.tables[i]!;
          const rows: TableRow[] = node.children;
          expect([ours.header, ...ours.rows].map(words)).toEqual(
            rows.map((row) => row.children.map((cell) => nodeText(cell))),
          );
          expect(ours.delimiter.cells.map(({ align }) => align)).toEqual(node.align);
          compared += rows.length;
        }
      }),
      { numRuns: 400 },
    );
    expect(compared).toBeGreaterThan(400);
  });

  it("have spans that lie in order, inside their cells, and hold the source", () => {
    fc.assert(
      fc.property(generated, (text) => {
        for (const one of block(text).tables) {
          for (const row of [one.header, ...one.rows]) {
            let at = 0;
            for (const cell of row.cells) {
              expect(cell.outer.start).toBeGreaterThanOrEqual(at);
              expect(cell.span.start).toBeGreaterThanOrEqual(cell.outer.start);
              expect(cell.span.end).toBeLessThanOrEqual(cell.outer.end);
              expect(slice(text, cell.outer).replace(/^[ \t]+|[ \t]+$/g, "")).toBe(slice(text, cell.span));
              expect(slice(text, cell.outer)).not.toMatch(/[\r\n]/);
              at = cell.outer.end + 1;
            }
          }
        }
      }),
      { numRuns: 200 },
    );
  });
});
