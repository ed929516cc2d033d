import { judgeDateCode } from "../../compute/dates/judge-date-code";
import type { CellPosition } from "../../log/position";
import { dateCodesIn } from "../../review/dates/from-log";
import { joined, markdown, md } from "../../text/markdown";
import { shift, touches } from "../../text/span";
import { sayingMarkdown } from "../shared/describe";
import type { Hover } from "../types";
import type { LogView } from "../view";

/** A date code under the pointer: its week, and how it stands to the board's years. */
export function hoverDateCode(view: LogView, at: CellPosition, offset: number): Hover | undefined {
  for (const { code, span, context } of dateCodesIn(at.table, view.ctx.board?.value, view.front)) {
    const own = shift(span, at.placed.start);
    if (!touches(own, offset)) continue;
    const ruling = judgeDateCode(code.text, context);
    const text = ruling.ok ? sayingMarkdown(ruling.says) : md(ruling.reason);
    const because = ruling.ok && ruling.code ? [md(ruling.code.because)] : [];
    const source = ruling.ok ? [markdown`*Source: ${md(ruling.source)}*`] : [];
    return { span: own, markdown: joined([text, ...because, ...source], "\n\n") };
  }
  return undefined;
}
