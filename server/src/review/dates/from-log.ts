// Where a log holds date codes: the columns made for them, and inspection rows that say so.

import { defined } from "../../base/defined";
import type { CodeContext } from "../../compute/dates/date-code";
import { type FoundCode, findDateCodes } from "../../compute/dates/find-date-codes";
import type { FrontMatter } from "../../knowledge/load-front-matter";
import type { Board } from "../../knowledge/types";
import type { LogTable } from "../../log/model";
import type { Span } from "../../text/span";

export interface PlacedCode {
  readonly code: FoundCode;
  /** Of the block. */
  readonly span: Span;
  readonly context: CodeContext;
  /** Newly fitted, so that a code after the board's era is to be expected. */
  readonly fitted: boolean;
}

const SAYS_CODES = /\bdate[- ]?codes?\b|\bweek codes?\b/i;
const DAY = /^\d{4}-\d\d-\d\d$/;

/** True for tables of inspections and of parts fitted: no others have any. */
export const mayHaveDateCodes = ({ kind: { holds } }: LogTable): boolean =>
  holds === "inspection" || holds === "fitted";

/** Every code of such a table; none of any other. */
export function dateCodesIn(
  table: LogTable,
  board: Board | undefined,
  front: Partial<FrontMatter>,
): readonly PlacedCode[] {
  if (!mayHaveDateCodes(table)) return [];
  const fitted = table.kind.holds === "fitted";
  const found: PlacedCode[] = [];
  for (const row of table.rows) {
    const date = row.cells.date?.text ?? "";
    const latest = DAY.test(date) ? date : fitted ? front.returned : (front.received ?? front.returned);
    const context: CodeContext = defined({
      era: board?.era && !fitted ? board.era : undefined,
      latest,
    });
    const named = !fitted && SAYS_CODES.test(row.cells.item?.text ?? "");
    const readings = table.readings.filter((reading) => reading.row === row.index);
    const cells = [
      ...readings
        .filter(({ measure, spec }) => measure === "date-code" || (named && spec.role === "result"))
        .map(({ cell }) => cell),
      ...(named && row.cells.note ? [row.cells.note] : []),
    ];
    for (const { text, span } of cells) {
      for (const code of findDateCodes(text)) {
        const start = span.start + code.start;
        found.push({ code, span: { start, end: start + code.text.length }, context, fitted });
      }
    }
  }
  return found;
}
