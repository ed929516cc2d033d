import type { LogDocument } from "../log/document";
import { frontSpan } from "../log/front";
import { inBlocks, tablesThat } from "../log/in-blocks";
import { type Span, shift, span } from "../text/span";
import { documentCheck } from "./check";

export default documentCheck({
  code: "dates-out-of-order",
  title: "Dates out of order",
  severity: "warning",
  scope: "document",
  ofSet: "once",
  why: "A board cannot go back before it came in, and work dated outside that span is a typing slip that later spoils the age of open jobs and the history of a board.",
  remedy: "Correct the date. Dates are written year first: `2026-03-20`.",
  examples: {
    bad: [
      `---
mendlog: 1
received: 2026-03-20
returned: 2026-03-02
          ^^^^^^^^^^ dates-out-of-order: before it was received
---
`,
      `---
mendlog: 1
received: 2026-03-02
---

## 2026-03-04 Inspection

## 2026-03-03 Diode check
   ^^^^^^^^^^ dates-out-of-order: 2026-03-04
`,
      `---
mendlog: 1
received: 2026-03-02
---

## Work done

| Ref | Action | Part | Date       |
|-----|--------|------|------------|
| U14 | clean  |      | 2026-02-05 |
                        ^^^^^^^^^^ dates-out-of-order: before the board was received
`,
    ],
    good: [
      `---
mendlog: 1
received: 2026-03-02
returned: 2026-03-20
---

## 2026-03-04 Inspection

## 2026-03-04 Diode check

## Work done

| Ref | Action | Part | Date       |
|-----|--------|------|------------|
| U14 | clean  |      | 2026-03-05 |
| U15 | clean  |      | 2026-03-05 |
`,
    ],
  },
  *run({ doc, front }) {
    const received = isoDate(front.received);
    const returned = isoDate(front.returned);
    const receivedAt = frontSpan(doc, ["received"]);
    const returnedAt = frontSpan(doc, ["returned"]);
    const related = (at: Span | undefined, message: string) =>
      at ? { related: [{ uri: doc.uri, span: at, message }] } : {};
    if (received && returned && returnedAt && returned < received) {
      yield {
        span: returnedAt,
        fact: `The board was returned on ${returned}, before it was received on ${received}.`,
        step: "Correct one of the two dates.",
        ...related(receivedAt, `received ${received}`),
      };
    }
    let last: Dated | undefined;
    for (const at of [...headingDates(doc), ...cellDates(doc)]) {
      if (last && last.list === at.list && at.date < last.date) {
        yield {
          span: at.span,
          fact: `This ${at.what} is dated ${at.date}, but the one above it is dated ${last.date}.`,
          step: "Correct the date, or move it to its place.",
          ...related(last.span, `dated ${last.date}`),
        };
      } else if (received && at.date < received) {
        yield {
          span: at.span,
          fact: `This ${at.what} is dated ${at.date}, before the board was received on ${received}.`,
          step: "Correct one of the two dates.",
          ...related(receivedAt, `received ${received}`),
        };
      } else if (returned && at.date > returned) {
        yield {
          span: at.span,
          fact: `This ${at.what} is dated ${at.date}, after the board was returned on ${returned}.`,
          step: "Correct one of the two dates.",
          ...related(returnedAt, `returned ${returned}`),
        };
      }
      last = at;
    }
  },
  noFix: "The log does not show which of the dates is wrong.",
});

const isoDate = (value: unknown): string | undefined =>
  typeof value === "string" && /^\d{4}-\d{2}-\d{2}$/.test(value) ? value : undefined;

interface Dated {
  readonly date: string;
  readonly span: Span;
  readonly what: "heading" | "row";
  /** Dates of one list are expected in order: the headings, or the rows of one table. */
  readonly list: unknown;
}

const withDates = tablesThat(({ columns }) => columns.some(({ spec }) => spec?.role === "date"));

/** Rows of tables with a date column, such as the work done. */
function* cellDates(doc: LogDocument): Iterable<Dated> {
  for (const { start, table } of withDates(doc)) {
    for (const { cells } of table.rows) {
      const date = isoDate(cells.date?.text);
      if (cells.date && date) yield { date, span: shift(cells.date.span, start), what: "row", list: table };
    }
  }
}

/** Dates in headings, in document order. */
function* headingDates(doc: LogDocument): Iterable<Dated> {
  for (const { start, found } of dated(doc))
    for (const { date, span } of found) yield { date, span: shift(span, start), what: "heading", list: doc };
}

const dated = inBlocks(({ source }) => {
  const dates = source.headings.flatMap(({ contentSpan }): Pick<Dated, "date" | "span">[] => {
    const words = source.text.slice(contentSpan.start, contentSpan.end);
    const match = /\b\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])\b/.exec(words);
    if (!match) return [];
    const at = contentSpan.start + match.index;
    return [{ date: match[0], span: span(at, at + match[0].length) }];
  });
  return dates.length === 0 ? undefined : dates;
});
