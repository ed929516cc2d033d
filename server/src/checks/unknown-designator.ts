import { boardIndex } from "../analysis/board-index";
import { hasBoardFile } from "../analysis/context";
import type { CellText, LogTable } from "../log/model";
import { refText } from "../log/read-table";
import { onlyNearest } from "../text/nearest";
import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { replaceWithData } from "./fixes";

export default blockCheck({
  code: "unknown-designator",
  title: "A designator the board does not have",
  severity: "warning",
  scope: "block",
  why: "A reading filed under a part that is not on the board is lost to every comparison, to the parts list and to later jobs.",
  remedy: "Correct the designator, or add the part to the board file where the file is incomplete.",
  examples: {
    bad: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U41 | 1   | 0.58    |
  ^^^ unknown-designator: Did you mean U14?
`),
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
| u15 (spare inverter) | 2 | 0.57 |
`),
    ],
  },
  *run({ block, ctx }) {
    if (!ctx.board || !hasBoardFile(ctx)) return;
    const index = boardIndex(ctx.board.value);
    const refs = [...ctx.board.value.parts.keys()];
    for (const table of block.tables) {
      for (const { text, span } of refsIn(table)) {
        if (index.part(text) || !/^[A-Za-z]+\d/.test(text)) continue;
        const near = onlyNearest(text.toUpperCase(), refs);
        yield {
          span,
          message: `${ctx.board.value.title} has no part "${text}".${near ? ` Did you mean ${near}? If not, add the part to the board file.` : " Correct it, or add the part to the board file."}`,
          ...(near ? { data: { newText: near } } : {}),
        };
      }
    }
  },
  fixes: (finding) => replaceWithData(finding, (ref) => `Change to ${ref}`),
});

/** Every designator written in the table, once for each place it is written at. */
function* refsIn(table: LogTable): Iterable<CellText> {
  const seen = new Set<number>();
  const fresh = (at: CellText | undefined): at is CellText => {
    if (!at || seen.has(at.span.start)) return false;
    seen.add(at.span.start);
    return true;
  };
  if (table.shape === "wide" && table.procedure.wide?.columns === "ref") {
    for (const column of table.columns.slice(1)) {
      if (!column.spec && column.header.text !== "") yield refText(column.header);
    }
  }
  for (const row of table.rows) if (fresh(row.cells.ref)) yield row.cells.ref;
}
