// A sheet for the bench: the tables of a log with empty cells to fill in by hand, with what is known of each place printed
// and a number at each row that leads back to the log.

import { defined } from "../../base/defined";
import { shapeOf } from "../../compute/matrix/shape";
import { boardTitle } from "../../judge/context";
import { expectedWindow } from "../../judge/expected-text";
import { testPointOf } from "../../judge/test-point";
import { boardIndex } from "../../knowledge/board-index";
import { tablesOf } from "../../log/document";
import { lineNumberAt } from "../../log/lines";
import type { LogTable, Reading } from "../../log/model";
import { matrixOfTable } from "../../review/matrix/from-log";
import type { Fact, ReportSource } from "../owner/model";
import { boardWords, shortWords } from "../owner/set";

export interface SheetTable {
  /** From 1; its rows are 1.1, 1.2 and so on. */
  readonly number: number;
  readonly heading: string;
  /** Line of the log it stands in, from 1; absent where the sheet is of a board. */
  readonly line?: number;
  readonly cautions: readonly string[];
  readonly headers: readonly string[];
  /** What is printed; an empty text is a cell to write in. */
  readonly rows: readonly (readonly string[])[];
  /** True where cells name what is read in them, so that the pencil needs room below the name. */
  readonly named?: boolean;
}

export interface BenchSheet {
  readonly format: 1;
  readonly title: string;
  /** What the sheet is of, to be found again: the job's number, else the file's name, of a board that of its file. */
  readonly log: string;
  /** True where it is of a board and of no log. */
  readonly ofBoard?: true;
  readonly facts: readonly Fact[];
  /** Said before anything is touched, the board's own among them. */
  readonly cautions: readonly string[];
  readonly tables: readonly SheetTable[];
}

const GENERAL = [
  "Unplug the board and discharge its capacitors before the meter is put to it, except where a table says that it is powered.",
  "Mains and high voltages stay live on a powered machine. Local codes and licensed practice apply.",
];

/** Rows to write in where the work only tells what is in them. */
const BLANK_ROWS = 6;
/** More tables than these are a book; the log itself is read then. */
const MOST_TABLES = 60;

/** Of a log about several boards their sheets in one, each table with the board's name. */
export function sheetOf(source: ReportSource): BenchSheet {
  const others = source.others ?? [];
  if (others.length === 0) return sheetOfOne(source);
  const all = [source, ...others].map((one) => ({
    name: shortWords(one),
    sheet: sheetOfOne(one),
  }));
  const first = all[0]!.sheet;
  const tables = all
    .flatMap(({ name, sheet }) =>
      sheet.tables.map((table) => ({ ...table, heading: `${name}: ${table.heading}` })),
    )
    .sort((a, b) => (a.line ?? 0) - (b.line ?? 0))
    .slice(0, MOST_TABLES);
  const said = new Set<string>();
  return {
    ...first,
    title: `Bench sheet: ${[source, ...others].map(boardWords).join(", ")}`,
    facts: [
      ...first.facts.filter(({ label }) => label === "Log" || label === "Meter"),
      ...all.flatMap(({ name, sheet }) =>
        sheet.facts
          .filter(({ label }) => label !== "Log" && label !== "Meter")
          .map(({ label, text }) => ({ label: `${name}: ${label.toLowerCase()}`, text })),
      ),
    ],
    cautions: [...new Set(all.flatMap(({ sheet }) => sheet.cautions))],
    tables: tables.map((table, at) => {
      const cautions = table.cautions.filter((one) => !said.has(one));
      for (const one of cautions) said.add(one);
      return { ...table, number: at + 1, cautions };
    }),
  };
}

function sheetOfOne(source: ReportSource): BenchSheet {
  const { doc, front, ctx } = source;
  const board = ctx.board?.value;
  const name = boardTitle(ctx, front) || "Control board";
  const log = source.ofBoard ?? front.job ?? decodeURIComponent(doc.uri.split("/").at(-1) ?? doc.uri);
  const tables: SheetTable[] = [];
  const said = new Set<string>();
  for (const { start, table } of tablesOf(doc)) {
    if (tables.length >= MOST_TABLES) break;
    const made = rowsOf(table, source);
    if (made === undefined) continue;
    // A caution that stands above already is not repeated: the sheet is short, and its first words count.
    const cautions = table.procedure.cautions.filter((one) => !said.has(one));
    for (const one of cautions) said.add(one);
    tables.push({
      number: tables.length + 1,
      heading: table.section.heading?.text ?? table.procedure.title,
      ...(source.ofBoard === undefined ? { line: lineNumberAt(doc, start + table.span.start) } : {}),
      cautions,
      ...made,
    });
  }
  return defined({
    format: 1,
    title: `Bench sheet: ${[name, front.serial].filter(Boolean).join(" ")}`,
    log,
    ofBoard: source.ofBoard === undefined ? undefined : (true as const),
    facts: facts([
      [source.ofBoard === undefined ? "Log" : "Board file", log],
      ["Board", [name, front.revision && `revision ${front.revision}`].filter(Boolean).join(", ")],
      ["Serial number", front.serial],
      ["Came in with", (front.symptoms ?? []).map((id) => board?.symptoms.get(id)?.title ?? id).join("; ")],
      ["Meter", ctx.meter?.title],
    ]),
    cautions: [...new Set([...(board?.cautions ?? []), ...GENERAL])],
    tables,
  });
}

const facts = (all: readonly (readonly [string, string | undefined])[]): Fact[] =>
  all.flatMap(([label, text]) => (text === undefined || text === "" ? [] : [{ label, text }]));

type Rows = Pick<SheetTable, "headers" | "rows" | "named">;

function rowsOf(table: LogTable, source: ReportSource): Rows | undefined {
  const { kind } = table;
  if (kind.holds === "parts") return undefined;
  if (kind.matrix) return gridOf(table, source) ?? asWritten(table);
  if (kind.holds === "readings" && table.readings.length > 0) return placesOf(table, source);
  return asWritten(table);
}

/** One row a place with the pin's name and what is expected there, and a cell for each thing that is read. */
function placesOf(table: LogTable, { ctx }: ReportSource): Rows {
  const measures = new Map<string, string>();
  const places = new Map<string, { where: string; name: string; expected: string[] }>();
  for (const reading of table.readings) {
    const { spec, measure } = reading;
    if (spec.role !== "reading" && spec.role !== "state" && spec.role !== "result") continue;
    measures.set(measure, titleOf(reading));
    const where = whereOf(reading);
    const key = `${reading.row}\n${where}`;
    const one = places.get(key) ?? { where, name: nameOf(reading, ctx), expected: [] };
    places.set(key, one);
    const window = spec.role === "reading" ? expectedWindow(reading, ctx) : reading.subject.expected?.text;
    if (window !== undefined && window !== "") one.expected.push(window);
  }
  const all = [...places.values()];
  const hasNames = all.some(({ name }) => name !== "");
  const hasWindows = all.some(({ expected }) => expected.length > 0);
  const headers = [
    "Where",
    ...(hasNames ? ["Name"] : []),
    ...(hasWindows ? ["Expected"] : []),
    ...measures.values(),
    "Note",
  ];
  return {
    headers,
    rows: all.map(({ where, name, expected }) => [
      where,
      ...(hasNames ? [name] : []),
      ...(hasWindows ? [[...new Set(expected)].join("; ")] : []),
      ...[...measures.values()].map(() => ""),
      "",
    ]),
  };
}

/** What a column is called in the log, else by the first of its usual words. */
function titleOf({ spec, table }: Reading): string {
  const own = table.columns.find((column) => column.spec === spec)?.header.text;
  const unit = spec.unit;
  const word = (table.shape === "long" && own) || spec.headers[0] || "Reading";
  return unit !== undefined && !word.includes(unit) ? `${word} (${unit})` : word;
}

function whereOf({ subject }: Reading): string {
  const { ref, pin, rail, signal, item, from, to, row, column, cell } = subject;
  const words = ref
    ? [ref.text, pin && `pin ${pin.text}`]
    : from || to
      ? [[from?.text, to?.text].filter(Boolean).join(" to ")]
      : [
          rail?.text ?? item?.text ?? signal?.text ?? cell?.text ?? row?.text,
          column?.text,
          pin && `pin ${pin.text}`,
        ];
  return words.filter(Boolean).join(" ");
}

/** The pin's name and the net it is on: "1A, ROW_1". */
function nameOf({ subject }: Reading, ctx: ReportSource["ctx"]): string {
  const place = testPointOf(subject, ctx);
  const board = ctx.board?.value;
  const number = place?.pin?.number ?? place?.pinTyped;
  const net =
    board && place && number !== undefined ? boardIndex(board).net(place.ref, number)?.name : undefined;
  return [...new Set([place?.pin?.name, net])].filter(Boolean).join(", ");
}

/** Rows and columns of the board's matrix with the names of its crossings, those that must not be bridged marked. */
function gridOf(table: LogTable, { ctx }: ReportSource): Rows | undefined {
  const board = ctx.board?.value;
  const matrix = board && matrixOfTable(table, board);
  if (!matrix) return undefined;
  const { rows, columns } = shapeOf(matrix);
  const reserved = new Set(matrix.reserved.map(([row, column]) => `${row},${column}`));
  const numbers = (count: number): number[] => Array.from({ length: count }, (_, i) => i + 1);
  return {
    named: true,
    headers: ["Row / column", ...numbers(columns).map(String)],
    rows: numbers(rows).map((row) => [
      String(row),
      ...numbers(columns).map((column) => {
        const name = matrix.cells?.[row - 1]?.[column - 1] ?? "";
        return reserved.has(`${row},${column}`) ? `${name} (do not bridge)`.trim() : name && `${name}:`;
      }),
    ]),
  };
}

const PRINTED: ReadonlySet<string> = new Set([
  "ref",
  "pin",
  "rail",
  "signal",
  "row",
  "column",
  "cell",
  "switch",
  "setting",
  "item",
  "from",
  "to",
  "expected",
  "package",
  "circuit",
  "value",
]);

/** The log's own columns: what names a place is printed, all else is left to write in. */
function asWritten(table: LogTable): Rows {
  const headers = table.columns.map(({ header }) => header.text || "Note");
  const blank = headers.map(() => "");
  const byHand = table.kind.holds === "work" || table.kind.holds === "fitted" || table.kind.holds === "swaps";
  const rows = byHand
    ? []
    : table.source.rows.map(({ cells }) =>
        table.columns.map(({ spec }, at) =>
          PRINTED.has(spec?.role ?? "") || at === 0 ? (cells[at]?.text ?? "") : "",
        ),
      );
  return { headers, rows: rows.length > 0 ? rows : Array.from({ length: BLANK_ROWS }, () => blank) };
}
