// Long, because every column of every table is said in it.
// The tables of an export, as data: the types of their rows, the columns of the Parquet files, the tables that PostgreSQL
// loads and docs/export.md are all made from this. A column that goes, or changes what it means, raises the version; a new
// column or table may come without. No name is a reserved word of SQL, so that none has to be quoted.

/** Version of the schema, not of the program. Raised where a column goes or changes what it means. */
export const EXPORT_VERSION = 2;

/** What a column holds; a date is an ISO 8601 day without a time. */
export type ColumnType = "text" | "integer" | "number" | "boolean" | "date";

/** A column of the export by its name in SQL, with what `docs/export.md` says of it. */
export interface ExportColumn {
  readonly name: string;
  readonly type: ColumnType;
  /** Always has a value. */
  readonly required?: true;
  /** Says who the owner is, or may: left out unless it is asked for. */
  readonly personal?: true;
  readonly says: string;
}

export interface ExportTable {
  readonly says: string;
  readonly columns: readonly ExportColumn[];
}

const SHOP = {
  name: "shop",
  type: "text",
  required: true,
  says: "The shop's name as its shop file or `--shop` gives it; empty where neither does.",
} as const;
const LOG = {
  name: "log_no",
  type: "integer",
  required: true,
  says: "The job, by its row of `jobs`.",
} as const;
const BOARD = { name: "board", type: "text", says: "Id of the board, as the log names it." } as const;
const DAY_NUMBER = "in days from 1970-01-01, so that every database can subtract days the same way.";

export const EXPORT_TABLES = {
  jobs: {
    says: "One row a log, and of a log about several boards one for each board: with its own sections' readings, work, parts, hours and findings. What stands under no board's heading counts to the first.",
    columns: [
      SHOP,
      {
        name: "log_no",
        type: "integer",
        required: true,
        says: "Number of the row in this export, from 1, in the order of the files' names and of the boards in each.",
      },
      {
        name: "file_no",
        type: "integer",
        required: true,
        says: "`log_no` of the first row of the same log: the same number for all boards that one log is about.",
      },
      { name: "job", type: "text", says: "The job's number in the shop's books." },
      BOARD,
      {
        name: "unit",
        type: "integer",
        required: true,
        says: "The very board: the same number for every job of this export on the same board and serial number. It tells boards apart without the serial number.",
      },
      { name: "revision", type: "text", says: "Revision printed on the board." },
      { name: "stage", type: "text", says: "Where the job stands." },
      { name: "received", type: "date", says: "Day the board came." },
      { name: "returned", type: "date", says: "Day the board went back." },
      { name: "received_day", type: "integer", says: `Day the board came, ${DAY_NUMBER}` },
      { name: "returned_day", type: "integer", says: `Day the board went back, ${DAY_NUMBER}` },
      { name: "comeback_of", type: "text", says: "Number of the earlier job that the log names." },
      { name: "meter", type: "text", says: "Id of the meter in the shop file." },
      {
        name: "reference",
        type: "boolean",
        required: true,
        says: "The log says that the board is known to work.",
      },
      { name: "hours", type: "number", says: "Hours noted in the log, added up; null where none are." },
      {
        name: "file",
        type: "text",
        personal: true,
        says: "The log's path. File names often hold the owner's.",
      },
      { name: "title", type: "text", personal: true, says: "First heading of the log." },
      { name: "serial", type: "text", personal: true, says: "Serial number of the board." },
      { name: "owner", type: "text", personal: true, says: "Whose board it is." },
      { name: "contact", type: "text", personal: true, says: "How the owner is reached." },
      { name: "return_address", type: "text", personal: true, says: "Where the board goes back to." },
      { name: "complaint", type: "text", personal: true, says: "What is wrong, in the owner's words." },
    ],
  },
  symptoms: {
    says: "One row for each symptom of a log, as its front matter has it. A symptom in free words is exported as typed.",
    columns: [
      SHOP,
      LOG,
      {
        name: "symptom",
        type: "text",
        required: true,
        says: "Id of the board's symptom, or the words of the log.",
      },
    ],
  },
  readings: {
    says: "One row for each cell of a table of readings that holds something. `place` and `load` as in `places`; `ref`, `pin`, `rail` and `signal` as typed.",
    columns: [
      SHOP,
      LOG,
      { name: "reading", type: "integer", required: true, says: "Number of the reading in its log, from 1." },
      { name: "procedure", type: "text", required: true, says: "Id of the test procedure." },
      { name: "measure", type: "text", required: true, says: "What was measured." },
      { name: "ref", type: "text", says: "Designator." },
      { name: "pin", type: "text", says: "Pin." },
      { name: "rail", type: "text", says: "Supply rail." },
      { name: "signal", type: "text", says: "Signal." },
      { name: "repair", type: "text", says: "`before` or `after`, where the table's heading says so." },
      { name: "power", type: "text", says: "`powered` or `unpowered`, where the heading says so." },
      { name: "load", type: "text", says: "`loaded` or `unloaded`, where the heading says so." },
      { name: "repairs", type: "integer", required: true, says: "How many repairs came before the reading." },
      {
        name: "apart",
        type: "boolean",
        required: true,
        says: "A part or a track was off while it was read.",
      },
      {
        name: "kind",
        type: "text",
        required: true,
        says: "`value`, `about`, `range`, `over`, `under`, `open`, `short`, `pair`, `state`, `result`, `text` or `unreadable`.",
      },
      {
        name: "low",
        type: "number",
        says: "Lower end of what was typed, in `unit`; both ends are the same for a single value.",
      },
      { name: "high", type: "number", says: "Upper end." },
      { name: "unit", type: "text", says: "SI base unit." },
      { name: "resolution", type: "number", says: "One step of the last digit typed, in `unit`." },
      {
        name: "ok",
        type: "boolean",
        says: "Of a result in words: whether it says that it works; null where it leaves that open.",
      },
      { name: "state", type: "text", says: "Of a logic state: which." },
      { name: "line", type: "integer", required: true, says: "Line of the log, from 1." },
      { name: "typed", type: "text", personal: true, says: "The cell as typed, which may be any words." },
    ],
  },
  verdicts: {
    says: "One row for each row of `readings`: the limits it was compared with, and the outcome. A reading within its limits does not prove the part.",
    columns: [
      SHOP,
      LOG,
      { name: "reading", type: "integer", required: true, says: "The reading, by its row of `readings`." },
      {
        name: "verdict",
        type: "text",
        required: true,
        says: "`impossible`, `out-of-limits`, `suspect`, `within-limits` or `unjudged`.",
      },
      { name: "code", type: "text", says: "Code of the check that reports it." },
      { name: "side", type: "text", says: "Which way it left its limits." },
      {
        name: "reference",
        type: "text",
        says: "Whose limits: `board`, `shop`, `reference-job`, `shops`, `family` or `physics`.",
      },
      { name: "low", type: "number", says: "Lower limit in `unit`." },
      { name: "high", type: "number", says: "Upper limit in `unit`." },
      { name: "unit", type: "text", says: "SI base unit of the limits." },
      { name: "boards", type: "integer", says: "Boards behind limits that come of earlier jobs." },
      {
        name: "uncertainty",
        type: "number",
        says: "Half-width of the meter's uncertainty, in SI base units.",
      },
    ],
  },
  work: {
    says: "One row for each place and row of work. What is only planned is in it as such.",
    columns: [
      SHOP,
      LOG,
      {
        name: "work",
        type: "integer",
        required: true,
        says: "Number of the row of work in its log, from 1; a row that names several places has it several times.",
      },
      { name: "ref", type: "text", says: "Designator in capitals." },
      {
        name: "action",
        type: "text",
        says: "`replace`, `socket`, `reflow`, `clean`, `jumper`, `cut`, `remove`, `fit-modification`, `fit` or `reprogram`; null for other words.",
      },
      { name: "state", type: "text", required: true, says: "`done`, `planned` or `put-back`." },
      { name: "replaced", type: "boolean", required: true, says: "Another part is in the place since." },
      { name: "part", type: "text", says: "Number of the part that was put in, in capitals." },
      { name: "repair", type: "integer", required: true, says: "Repair that it is part of, from 1." },
      { name: "done_on", type: "date", says: "Day written beside it." },
      { name: "action_text", type: "text", personal: true, says: "The action as typed." },
      { name: "note", type: "text", personal: true, says: "The note as typed." },
    ],
  },
  parts: {
    says: "One row for each part that a log lists as fitted.",
    columns: [
      SHOP,
      LOG,
      { name: "ref", type: "text", says: "Designator in capitals." },
      { name: "part", type: "text", required: true, says: "Number of the part, in capitals." },
    ],
  },
  findings: {
    says: "One row for each finding of a log, as `mendlog check` has it with the default settings.",
    columns: [
      SHOP,
      LOG,
      { name: "code", type: "text", required: true, says: "Code of the check." },
      {
        name: "severity",
        type: "text",
        required: true,
        says: "`error`, `warning`, `information` or `hint`.",
      },
      { name: "line", type: "integer", required: true, says: "Line of the log, from 1." },
      {
        name: "message",
        type: "text",
        personal: true,
        says: "The finding's words, which may quote the log's.",
      },
    ],
  },
  places: {
    says: "One row for each place of a log on a known board: the reading that speaks for the board as it left. The limits are made from these.",
    columns: [
      SHOP,
      LOG,
      { name: "procedure", type: "text", required: true, says: "Id of the test procedure." },
      { name: "measure", type: "text", required: true, says: "What was measured." },
      { name: "load", type: "text", says: "`loaded` or `unloaded`, for rails." },
      {
        name: "place",
        type: "text",
        required: true,
        says: "The place in the board's own names: `U14.3`, `U14` or `rail +5V`.",
      },
      { name: "read_value", type: "number", says: "In `unit`; null for a place that read open." },
      {
        name: "resolution",
        type: "number",
        required: true,
        says: "One step of the last digit typed, in `unit`; 0 where no number was.",
      },
      {
        name: "unit",
        type: "text",
        required: true,
        says: "SI base unit; empty for a short or an open circuit typed in words.",
      },
    ],
  },
  factors: {
    says: "What the limits' standard deviations are multiplied by, by the number of boards: the two-sided tolerance factor of normal readings, exact, for 95 % of all boards with 95 % confidence. The same in every export.",
    columns: [
      { name: "boards", type: "integer", required: true, says: "Number of boards." },
      { name: "factor", type: "number", required: true, says: "The factor." },
    ],
  },
} as const satisfies Readonly<Record<string, ExportTable>>;

export type TableName = keyof typeof EXPORT_TABLES;
export const TABLE_NAMES = Object.keys(EXPORT_TABLES) as readonly TableName[];

interface Values {
  readonly text: string;
  readonly integer: number;
  readonly number: number;
  readonly boolean: boolean;
  /** ISO 8601. */
  readonly date: string;
}

type Column<T extends TableName> = (typeof EXPORT_TABLES)[T]["columns"][number];

/** One row of a table, every column of it named; `null` where there is nothing. */
export type ExportRow<T extends TableName> = {
  readonly [C in Column<T> as C["name"]]: C extends { readonly required: true }
    ? Values[C["type"]]
    : Values[C["type"]] | null;
};

export type Rows = { readonly [T in TableName]: readonly ExportRow<T>[] };

/** The columns that an export has. */
export const exportedColumns = (table: TableName, withOwner: boolean): readonly ExportColumn[] =>
  (EXPORT_TABLES[table].columns as readonly ExportColumn[]).filter(({ personal }) => withOwner || !personal);

/** One value of a row; null where the log says nothing. */
export type ExportValue = string | number | boolean | null;

/** A row's cells in the order of the columns. */
export const exportValues = (row: object, columns: readonly ExportColumn[]): ExportValue[] =>
  columns.map(({ name }) => (row as Readonly<Record<string, ExportValue>>)[name] ?? null);
