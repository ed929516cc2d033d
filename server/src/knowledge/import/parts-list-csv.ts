// A parts list of separated cells, with the headers in any order and any of the three separators.

import { defined } from "../../base/defined";
import type { PartFacts } from "./builder";
import { type BoardBuilder, boardBuilder } from "./builder";
import { type CsvRow, eachRow, SEPARATORS, type Separator } from "./csv";
import { type Column, columnsOf } from "./headers";
import type { ImportedBoard, Importing } from "./imported";
import { readRefs } from "./ref-list";

/** Lines above the headers that are looked at: a title, a date, a count of parts. */
const HEADER_WITHIN = 30;
/** Characters that are looked at for them. */
const HEAD = 20_000;

type Columns = ReadonlyMap<Column, number>;

export interface PartsListShape {
  readonly separator: Separator;
  readonly columns: Columns;
  /** Line of the headers. */
  readonly line: number;
}

/** How a text is to be read as a parts list; undefined where no line of its beginning has a column of designators and one more. */
export function partsListShape(text: string): PartsListShape | undefined {
  const head = text.slice(0, HEAD);
  let best: PartsListShape | undefined;
  for (const separator of SEPARATORS) {
    let seen = 0;
    const rows = eachRow(head, separator, ({ cells, line }) => {
      const columns = columnsOf(cells);
      const isHeader = columns.has("ref") && (columns.has("value") || columns.has("partNumber"));
      if (isHeader && columns.size > (best?.columns.size ?? 0)) best = { separator, columns, line };
      return !isHeader && ++seen < HEADER_WITHIN;
    });
    while (!rows.next().done);
  }
  return best;
}

export function* readPartsList(text: string, shape: PartsListShape): Importing<ImportedBoard> {
  const builder = boardBuilder("parts-list", false);
  yield* eachRow(text, shape.separator, (row) => {
    if (row.line > shape.line) takeRow(row, shape.columns, builder);
    return !builder.full;
  });
  return builder.build();
}

function takeRow({ cells, line, cut }: CsvRow, columns: Columns, builder: BoardBuilder): void {
  const cell = (column: Column): string => {
    const at = columns.get(column);
    return (at === undefined ? undefined : cells[at]) ?? "";
  };
  if (cut) {
    builder.problem(
      "lost",
      `A quotation mark opens in the row of line ${line} and never closes: the file is cut off, or a mark is missing. The row was not read.`,
      line,
    );
    return;
  }
  if (cells.every((text) => text === "")) return;
  const { refs, odd } = readRefs(cell("ref"));
  const value = cell("value");
  const partNumber = cell("partNumber");
  const packageName = cell("package");
  for (const word of odd)
    builder.problem(
      "lost",
      `"${shortened(word)}" is no designator, and was not read. Designators look like C4, or C4-C7 for several.`,
      line,
    );
  if (refs.length === 0 && odd.length === 0) {
    // A line below the table: a sum, a remark, a heading between two groups.
    if (value !== "" || partNumber !== "")
      builder.problem(
        "note",
        `A row without a designator: "${shortened(value || partNumber)}". It is left out.`,
        line,
      );
    return;
  }
  if (refs.length > 0 && value === "" && partNumber === "")
    builder.problem("note", `${refs.join(", ")} without a value or part number.`, line);
  const quantity = cell("quantity");
  if (/^\d+$/.test(quantity) && odd.length === 0 && Number(quantity) !== refs.length)
    builder.problem(
      "note",
      `The quantity is ${quantity}, and the designators are ${refs.length}: ${shortened(cell("ref"))}. One of the two is wrong.`,
      line,
    );
  const facts = defined<PartFacts>({
    value: value !== "" ? value : undefined,
    partNumber: partNumber !== "" ? partNumber : undefined,
    package: packageName !== "" ? packageName : undefined,
    unfitted: isUnfitted(cell("unfitted"), cell("fitted"), value) ? (true as const) : undefined,
    allPins: false,
  });
  for (const ref of refs) builder.part(ref, facts, line);
}

const isUnfitted = (unfitted: string, fitted: string, value: string): boolean =>
  !/^(?:|0|no|n|false|-|nein)$/i.test(unfitted) ||
  /^(?:0|no|n|false|nein|dn[pfi]|not .*)$/i.test(fitted) ||
  /^(?:dn[pfi]|not fitted|unpopulated)$/i.test(value);

const shortened = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}...` : text);
