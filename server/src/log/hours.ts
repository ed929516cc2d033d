// Hours noted by day: lines of a list under a heading "Hours", as "- 2026-03-04: 1.5 h readings of the matrix". The form
// is one for people to type: a day, a decimal number, "h", and what was done.

import type { List, Nodes } from "mdast";
import { memo } from "../base/memo";
import { isDate } from "../knowledge/formats";
import { nodeSpan } from "../syntax/node-span";
import { type Span, shift } from "../text/span";
import type { LogDocument } from "./document";
import { inBlocks } from "./in-blocks";

/** What was worked on one day. */
export interface HoursLine {
  /** Of the document. */
  readonly span: Span;
  /** ISO 8601. */
  readonly day: string;
  /** Decimal text, never negative: "1.5". */
  readonly hours: string;
  readonly what?: string;
}

/** A line under that heading which is not counted, with the reason as a clause. */
export interface HoursFault {
  readonly span: Span;
  readonly typed: string;
  readonly reason: string;
}

export interface Hours {
  readonly lines: readonly HoursLine[];
  readonly faults: readonly HoursFault[];
}

/** A heading under which hours are noted. */
const HEADING = /^\s*(?:hours|time spent|hours worked|labou?r)\s*$/i;

/** A day and no more than fits into it. */
const LINE =
  /^(\d{4}-\d{2}-\d{2})\s*[:,;]?\s+(-?\d{1,6}(?:[.,]\d{1,4})?)\s*(?:h|hrs?|hours?)\b\.?\s*[:,;]?\s*(.*)$/is;
const DAY_HOURS = 24;

/** In the order of the log; made once for a document. */
export const hoursIn = memo((doc: LogDocument): Hours => {
  const all = hoursInBlocks(doc);
  return {
    lines: all.flatMap(({ start, found }) =>
      found.lines.map((line) => ({ ...line, span: shift(line.span, start) })),
    ),
    faults: all.flatMap(({ start, found }) =>
      found.faults.map((fault) => ({ ...fault, span: shift(fault.span, start) })),
    ),
  };
});

const hoursInBlocks = inBlocks(({ source }): Hours | undefined => {
  if (!/hour|time spent|labou?r/i.test(source.text)) return undefined;
  const lines: HoursLine[] = [];
  const faults: HoursFault[] = [];
  let wanted = false;
  for (const node of source.outline.children) {
    if (node.type === "heading")
      wanted = HEADING.test(textOf(source.text, node).replace(/^#+\s*|\s*#+$/g, ""));
    else if (wanted && node.type === "list") read(node, source.text, lines, faults);
  }
  return { lines, faults };
});

const textOf = (text: string, node: Nodes): string => {
  const span = nodeSpan(text, node);
  return span ? text.slice(span.start, span.end) : "";
};

function read(list: List, text: string, lines: HoursLine[], faults: HoursFault[]): void {
  for (const item of list.children) {
    const paragraph = item.children[0];
    const span = paragraph && nodeSpan(text, paragraph);
    if (!span) continue;
    const typed = text.slice(span.start, span.end);
    const [, day = "", number = "", what = ""] = LINE.exec(typed) ?? [];
    const hours = number.replace(",", ".");
    const reason =
      day === ""
        ? "it does not begin with a day and hours"
        : !isDate(day)
          ? `${day} is no day of the calendar`
          : hours.startsWith("-")
            ? `${hours} hours are less than none`
            : Number(hours) > DAY_HOURS
              ? `a day has ${DAY_HOURS} hours, and ${hours} are noted`
              : undefined;
    if (reason !== undefined) faults.push({ span, typed, reason });
    else
      lines.push(
        what.trim() === ""
          ? { span, day, hours }
          : { span, day, hours, what: what.replace(/\s+/g, " ").trim() },
      );
  }
}
