import { createBlockCache, parseBlocks } from "../../../server/src/syntax/blocks";
import type { Row } from "../../../server/src/syntax/tables";

/** Header and rows of each table, as a reader of the rendered page sees them: short rows filled, long rows cut. */
export function seenCells(markdown: string): string[][][] {
  const { blocks } = parseBlocks(markdown, createBlockCache());
  return blocks.flatMap(({ source }) =>
    source.tables.map(({ header, rows }) =>
      [header, ...rows].map((row: Row) => [
        ...row.cells.filter(({ extra }) => !extra).map(({ text }) => text),
        ...Array.from({ length: row.missing }, () => ""),
      ]),
    ),
  );
}
