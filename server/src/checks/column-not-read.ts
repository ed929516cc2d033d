import { defined } from "../base/defined";
import type { ColumnRole, ColumnSpec } from "../knowledge/types";
import { isMeasured } from "../log/headers";
import type { LogTable, Reading } from "../log/model";
import { tableParts } from "../log/table-pieces";
import type { CellWant } from "../quantity/cell-value";
import { parseCell } from "../quantity/parse-cell";
import { type Cell, wordsOfRows } from "../syntax/tables";
import type { Saying } from "../text/saying";
import type { Span } from "../text/span";
import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { newTextOf } from "./fixes";

/** What says where a reading was taken. */
const PLACES: readonly ColumnRole[] = ["ref", "pin", "rail"];

export default blockCheck({
  code: "column-not-read",
  title: "A table of readings without a place",
  severity: "warning",
  scope: "block",
  why: "Columns are known by their header words. Where none of them is a column of readings, or none says where the readings were taken, everything in the table is left unread, and no finding below it means nothing.",
  remedy:
    "Head the column with a word the procedure knows, such as Reading, Pin or Rail, or head each column with the designator of its chip. The heading's hover lists the words.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check U14

| Pin | Wert |
        ^^^^ column-not-read: call it Reading
|-----|------|
| 1   | 0.58 |
| 2   | more |
`),
        fixes: [
          {
            title: 'Call the column "Reading"',
            makes: `

-| Pin | Wert |
+| Pin | Reading |
 |-----|------|
`,
          },
        ],
      },
      {
        text: exampleLog(`## Supply rails

| Power   | Measured |
  ^^^^^ column-not-read: call it Rail
|---------|----------|
| logic   | 4.2      |
`),
        fixes: [
          {
            title: 'Call the column "Rail"',
            makes: `

-| Power   | Measured |
+| Rail   | Measured |
 |---------|----------|
`,
          },
        ],
      },
      exampleLog(`## Diode check

| Pin | Reading |
        ^^^^^^^ column-not-read: Diode check U14
|-----|---------|
| 1   | 0.58    |
`),
      {
        text: exampleLog(`## Diode check U14

| Pin |      |
       ^^^^^^ column-not-read: call it Reading
|-----|------|
| 1   | 0.58 |
| 2   | more |
`),
        fixes: [
          {
            title: 'Call the column "Reading"',
            makes: `

-| Pin |      |
+| Pin | Reading |
 |-----|------|
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check U14

| Pin | Reading | Last time |
|-----|---------|-----------|
| 1   | 0.58    | 0.57      |
`),
      exampleLog(`## Diode check U14

| Pin | Wert |
|-----|------|
| 1   | 0.58 |
| 2   | 0.57 |
`),
      exampleLog(`## Diode check

| Pin | U14  | Sister board |
|-----|------|--------------|
| 1   | 0.58 | 0.57         |
`),
    ],
  },
  *run({ block }) {
    for (const table of block.tables) {
      const lost = unread(table);
      if (lost) yield lost;
      // A table is put right one header at a time.
      else yield* unplaced(table);
    }
  },
  fixes: {
    nameColumn(finding) {
      const newText = newTextOf(finding);
      const { span: whole } = finding;
      if (newText === undefined) return [];
      const { pad = false } = finding.data as { pad?: boolean };
      return [
        {
          title: `Call the column "${newText}"`,
          edits: [{ span: whole, newText: pad ? ` ${newText} ` : newText }],
          preferred: true,
        },
      ];
    },
  },
});

interface Draft extends Saying {
  readonly span: Span;
  readonly data?: { readonly newText: string; readonly pad: boolean };
}

/** A table of a procedure that measures at places, of whose columns none is read although some hold readings. */
function unread(table: LogTable): Draft | undefined {
  const { procedure, columns, shape } = table;
  const measured = procedure.columns.find(({ role, required }) => required && isMeasured(role));
  if (!measured || requiredPlaces(table).length === 0) return undefined;
  if (columns.some(({ spec }) => spec && isMeasured(spec.role))) return undefined;
  // In a wide table the designators are the column's names, and other columns are the writer's own.
  if (shape === "wide" && (procedure.wide?.columns !== "ref" || hasChipColumn(table))) return undefined;
  const lost = columns.filter((column, at) => at > 0 && !column.spec && holdsReadings(table, at, measured));
  const [first] = lost;
  if (!first) return undefined;
  const count = lost.reduce((sum, column) => sum + filled(table, columns.indexOf(column)).length, 0);
  const said = `${count === 1 ? "its reading is" : `its ${count} readings are`} not checked`;
  const word = measured.headers[0] ?? "Reading";
  const wide = procedure.wide?.columns === "ref" ? ", or head it with the designator of its chip" : "";
  return lost.length === 1
    ? {
        ...spanOf(first.header, word),
        fact: `${notKnown(first.header, `is no column of ${procedure.title}`)}, so ${said}.`,
        step: `If these are the readings, call it ${word}${wide}.`,
      }
    : {
        span: spanOf(first.header, word).span,
        fact: `None of the columns is one of ${procedure.title}, so ${said}.`,
        step: `It reads ${headersOf(procedure.columns)}${procedure.wide?.columns === "ref" ? ", or one column per chip, headed by its designator" : ""}.`,
      };
}

/** Readings that are read, but of which nothing says where they were taken. */
function* unplaced(table: LogTable): Iterable<Draft> {
  const { columns, procedure, section } = table;
  const read = columns.find(({ spec }) => spec && isMeasured(spec.role));
  const someReading = (is: (reading: Reading) => boolean): boolean =>
    tableParts(table).some(({ readings }) => readings.some(is));
  if (!read || !someReading(({ value }) => value.kind !== "empty")) return;
  const missing = requiredPlaces(table).filter(
    ({ role }) =>
      !columns.some(({ spec }) => spec?.role === role) &&
      !(role === "ref" && section.ref) &&
      // "U5-4" in one cell says both, and so does "U5 pin" over a column.
      someReading(({ subject, value }) => value.kind !== "empty" && !subject[role]),
  );
  const [role] = missing;
  if (!role || missing.length > 1) return;
  const at = columns.findIndex((column, index) => !column.spec && filled(table, index).length > 0);
  const column = columns[at];
  const word = role.headers[0] ?? role.role;
  if (column) {
    yield {
      ...spanOf(column.header, word),
      fact: `${notKnown(column.header, `is no column of ${procedure.title}`)}, so these readings have no place.`,
      step: `If this column says where they were taken, call it ${word}.`,
    };
  } else if (role.role === "ref" && !section.refs) {
    yield {
      span: read.header.span,
      fact: "Nothing says which part these readings are of, so they are not checked.",
      step: `Name it in the heading ("${procedure.title} U14"), or in a column ${word}.`,
    };
  }
}

const requiredPlaces = ({ procedure }: LogTable): ColumnSpec[] =>
  procedure.columns.filter(({ role, required }) => required && PLACES.includes(role));

const hasChipColumn = ({ columns }: LogTable): boolean =>
  columns.slice(1).some(({ header, spec }) => !spec && isRef(header.text));

const isRef = (text: string): boolean => /^[A-Za-z]{1,4}\d{1,4}[A-Za-z]?(?![\w.])/.test(text);

function holdsReadings(table: LogTable, at: number, spec: ColumnSpec): boolean {
  const want: CellWant =
    spec.role === "reading"
      ? defined({ kind: "quantity", unit: spec.unit })
      : { kind: spec.role === "state" ? "state" : "text" };
  const cells = filled(table, at);
  const good = cells.filter(({ text }) => hasNumber(parseCell(text, want).kind));
  return good.length > 0 && good.length * 2 >= cells.length;
}

const hasNumber = (kind: string): boolean =>
  kind === "quantity" || kind === "range" || kind === "bound" || kind === "open" || kind === "state";

const filled = ({ source }: LogTable, at: number): { readonly text: string }[] =>
  wordsOfRows(source).flatMap(({ cells }) => {
    const cell = cells[at];
    return cell && !/^[-–]?$/.test(cell.text) ? [cell] : [];
  });

const notKnown = ({ text }: Cell, isNone: string): string =>
  text === "" ? "This column has no name" : `"${text}" ${isNone}`;

const headersOf = (columns: readonly ColumnSpec[]): string =>
  columns
    .filter(({ required }) => required)
    .map(({ headers }) => headers[0])
    .join(", ");

/** The header's word; of an empty one the blanks between its pipes. */
function spanOf(header: Cell, newText: string): { span: Span; data: { newText: string; pad: boolean } } {
  const empty = header.text === "";
  return { span: empty ? header.outer : header.span, data: { newText, pad: empty } };
}
