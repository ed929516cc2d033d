// A log's model as text: each reading with the exact source of all that is said about it.
import { builtinLibrary } from "../../server/src/knowledge/library";
import { type LogDocument, LogReader, tablesOf } from "../../server/src/log/document";
import type { CellText, LogTable, Reading } from "../../server/src/log/model";
import type { CellValue } from "../../server/src/quantity/cell-value";
import { shift, slice } from "../../server/src/text/span";

export const readLog = (text: string): LogDocument =>
  new LogReader("mem:/log.md").read(text, builtinLibrary());

/** The text as a body below a front matter of one line. */
export const readBody = (body: string): LogDocument => readLog(`---\nmendlog: 1\n---\n\n${body}`);

export const tableList = (doc: LogDocument): LogTable[] => [...tablesOf(doc)].map(({ table }) => table);

/**
 * Every reading as "U14 1 drop 0.58 = 580 mV". The words are cut from the document by their spans, so a span
 * that is off by one shows; a subject that stands in no cell of the row is shown all the same.
 */
export function readingsOf(doc: LogDocument): string[] {
  return [...tablesOf(doc)].flatMap(({ start, table }) =>
    table.readings.map((reading) => {
      const at = (part: { span: { start: number; end: number } }) => slice(doc.text, shift(part.span, start));
      const about = Object.entries(reading.subject)
        .filter(([role]) => !NOT_PLACE.has(role))
        .map(([, text]) => at(text as CellText));
      return [...about, reading.measure, at(reading.cell) || "_", "=", valueText(reading.value)].join(" ");
    }),
  );
}

const NOT_PLACE: ReadonlySet<string> = new Set(["note", "result", "state", "expected"]);

export function valueText(value: CellValue): string {
  switch (value.kind) {
    case "quantity":
      return `${value.approx ? "about " : ""}${value.quantity.value} ${value.quantity.unit}`;
    case "range":
      return `${value.low.value} to ${value.high.value} ${value.low.unit}`;
    case "bound":
      return `${value.op} ${value.quantity.value} ${value.quantity.unit}`;
    case "state":
      return value.state;
    case "result":
      return value.ok === undefined ? "undecided" : value.ok ? "works" : "fails";
    default:
      return value.kind;
  }
}

export const subjectText = (reading: Reading | undefined): Record<string, string> =>
  Object.fromEntries(
    Object.entries(reading?.subject ?? {}).map(([role, text]) => [role, (text as CellText).text]),
  );
