import type { Verdict } from "../../compute/verdict";
import type { Judgement } from "../../judge";
import type { LogTable, Reading } from "../../log/model";
import { VERDICT_MARKS } from "../../pictures/marks";
import { type Markdown, markdown, md } from "../../text/markdown";
import { inWords } from "../../text/saying";
import type { Hint } from "./hint";
import { cellEnd, columnHints } from "./width";

type Judged = ReadonlyMap<Reading, Judgement>;

const DOUBTFUL: readonly Verdict[] = ["impossible", "out-of-limits", "suspect"];
const JUDGED: readonly Verdict[] = [...DOUBTFUL, "within-limits"];

/**
 * Beside each reading the mark of its verdict, in the columns where there is one to show. What was not judged there
 * has its mark too: no mark at all would be taken for nothing wrong.
 * @param all whether readings within limits, and those not judged, get theirs
 */
export function verdictHints(table: LogTable, judged: Judged, all: boolean): Hint[] {
  const byCell = new Map(table.readings.map((reading) => [reading.cell, judged.get(reading)?.verdict]));
  const counts = all ? JUDGED : DOUBTFUL;
  return table.columns.flatMap((_, column): Hint[] => {
    const verdicts = table.source.rows.map(({ cells }) => {
      const cell = cells[column];
      return cell && byCell.get(cell);
    });
    if (!verdicts.some((verdict) => verdict && counts.includes(verdict))) return [];
    const label = (row: number): string => {
      const verdict = verdicts[row];
      const shown = verdict && (all ? verdict !== "not-measured" : counts.includes(verdict));
      return shown ? VERDICT_MARKS[verdict].glyph : "";
    };
    return columnHints(table, column, (_cell, row) => label(row)).map((placed) => ({
      kind: "verdict",
      ...placed,
    }));
  });
}

export function verdictTooltip(table: LogTable, at: number, judged: Judged): Markdown | undefined {
  const reading = table.readings.find(({ cell }) => cellEnd(cell) === at);
  const judgement = reading && judged.get(reading);
  if (!judgement) return undefined;
  const { glyph, words } = VERDICT_MARKS[judgement.verdict];
  return markdown`**${md(glyph)} ${md(words)}**\n\n${md(inWords(judgement.says))}`;
}
