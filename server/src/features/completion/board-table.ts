// Tables that the board lays out: one row a rail, a grid with one cell a crossing.
import { defined } from "../../base/defined";
import type { Section } from "../../log/model";
import { md } from "../../text/markdown";
import { tablesToFill } from "../shared/tables/layouts";
import { writeLayout } from "../shared/tables/write";
import type { Completion } from "../types";
import type { LogView } from "../view";
import { ownLine } from "./own-line";

/** The table of the section's own procedure, laid out for this board and still empty. */
export function boardTables(
  view: LogView,
  section: Section,
  lineStart: number,
  offset: number,
): Completion[] {
  const line = ownLine(view.doc.text, lineStart, offset);
  if (!section.procedure || !line) return [];
  return tablesToFill(section.procedure, view).map((layout): Completion => {
    const { plain, snippet, filled } = writeLayout(layout);
    return defined({
      label: `${layout.name} table`,
      kind: "table",
      description: `${layout.rows.length} rows`,
      documentation: md(layout.about),
      span: line.span,
      newText: line.gap + plain.join(line.eol) + line.eol,
      snippet: line.gap + snippet.join(line.eol) + line.eol,
      filled: filled && line.gap + filled.join(line.eol) + line.eol,
      filterText: `${line.lead}${layout.name}`,
    });
  });
}
