// A column of the numbers printed on parts, beside the column of their designators, in a table whatever is measured.
import type { ColumnSpec, Procedure } from "../knowledge/types";
import type { RowWords } from "../syntax/tables";
import { headerWord } from "./header-word";
import type { TableColumn } from "./model";

/** Words over a column of the numbers printed on parts, beside the column of their designators. */
const DEVICE_WORDS: readonly string[] = [
  ...[
    "device",
    "type",
    "chip",
    "ic",
    "part",
    "part no",
    "part number",
    "partno",
    "part type",
    "number",
    "no",
  ],
  ...[
    "marking",
    "marked",
    "component",
    "chip type",
    "device type",
    "ic type",
    "chip no",
    "model",
    "what",
    "which",
  ],
];
/** Of those, words that stand over remarks as well. */
const ANY_WORD: ReadonlySet<string> = new Set(["what", "which"]);
/** What a column under such a word means where two could be the designators: the higher the likelier. */
const REF_RANK: readonly (readonly string[])[] = [
  ["device", "type", "part no", "part number", "partno", "part type", "chip type", "ic type", "device type"],
  ["component", "part", "marking", "marked", "number", "no", "model"],
  ["chip", "ic"],
  ["place", "position", "location", "where", "ref", "refs", "designator", "reference"],
];
/** A column of part numbers in a table whose procedure has no words for one. */
export const DEVICE_COLUMN: ColumnSpec = { role: "part", headers: ["Device"], required: false };

/** What the cells of a table say of its columns. */
export interface HeaderHelp {
  readonly rows: readonly RowWords[];
  readonly isDevice: (text: string) => boolean;
  /** The heading names the part, so that a column of chips can only hold its number. */
  readonly isAboutOnePart: boolean;
  /** Columns that are of another table. */
  readonly without?: ReadonlySet<number> | undefined;
  /** Names columns by what they hold. */
  readonly infer: (columns: readonly TableColumn[], rows: readonly RowWords[]) => readonly TableColumn[];
}

const rankOf = (word: string): number => REF_RANK.findIndex((words) => words.includes(word));

/** Words for the place of a part that a procedure may not have thought of. */
const PLACE_WORDS = new Set([
  ...[
    "location",
    "place",
    "position",
    "where",
    "ref",
    "refs",
    "reference",
    "ref des",
    "designator",
    "des",
    "socket",
  ],
  ...["grid", "coordinate", "component", "chip", "ic", "part"],
]);

/** A table of parts has a column that says which, whatever word stands over it. */
export function withPlaces(
  procedure: Procedure,
  columns: readonly TableColumn[],
  { rows, isDevice }: Pick<HeaderHelp, "rows" | "isDevice">,
): readonly TableColumn[] {
  const spec = procedure.columns.find(({ role }) => role === "ref");
  if (!spec || columns.some((column) => column.spec?.role === "ref")) return columns;
  const byWord = columns.findIndex(
    (column) => !column.spec && PLACE_WORDS.has(headerWord(column.header.text)),
  );
  // "TIP102" over Q1, Q2 and Q3 says what all of them are.
  const isOver = ({ spec, header }: TableColumn, at: number): boolean =>
    !spec &&
    isDevice(header.text) &&
    rows.length > 0 &&
    rows.every(
      ({ cells }) => /^[A-Z]{1,3}\d{1,3}$/i.test(cells[at]?.text ?? "") && !isDevice(cells[at]?.text ?? ""),
    );
  const at = byWord < 0 ? columns.findIndex(isOver) : byWord;
  return at < 0 ? columns : columns.map((column, i) => (i === at ? { ...column, spec } : column));
}

/** Of a column's cells so many have to be of a kind. */
const MOSTLY = 0.7;

/** Beside the designators a table may have a column of the numbers on the parts, whatever is measured. */
export function withDevices(
  columns: readonly TableColumn[],
  { rows, isDevice, isAboutOnePart }: HeaderHelp,
): readonly TableColumn[] {
  const ref = columns.findIndex(({ spec }) => spec?.role === "ref");
  const refSpec = columns[ref]?.spec;
  if (!refSpec || columns.some(({ spec }) => spec?.role === "part")) return columns;
  const word = (at: number): string => headerWord(columns[at]?.header.text ?? "");
  const isRefWord = (text: string): boolean => refSpec.headers.some((header) => headerWord(header) === text);
  const devices = (at: number): number => rows.filter(({ cells }) => isDevice(cells[at]?.text ?? "")).length;
  const named = (at: number): number =>
    rows.filter(({ cells }) => {
      const text = cells[at]?.text ?? "";
      // "74O4" is a slip of a number, and no place on the board.
      const isNumber = isDevice(text) || /^\d{2,}[A-Za-z]+\d/.test(text);
      return /^(?:[A-Za-z]{1,4}\d{1,4}[A-Za-z]?|\d{1,2}[A-Za-z]\d?)\b/.test(text) && !isNumber;
    }).length;
  // Two columns of designators are no column of designators and one of numbers.
  const mayBe = (at: number): boolean => named(at) <= devices(at) || named(ref) < devices(ref);
  const isWord = (at: number): boolean =>
    (DEVICE_WORDS.includes(word(at)) && (!ANY_WORD.has(word(at)) || devices(at) > 0)) ||
    isRefWord(word(at)) ||
    PLACE_WORDS.has(word(at));
  // Whatever word stands over them: numbers that the library knows, or designators beside a column of such numbers.
  const holds = (at: number): boolean => {
    const filled = rows.filter(({ cells }) => (cells[at]?.text ?? "") !== "").length;
    const fits = devices(ref) > named(ref) ? named(at) : devices(at);
    return filled > 0 && fits / filled >= MOSTLY;
  };
  const other = columns.findIndex(
    ({ spec }, at) => !spec && word(at) !== word(ref) && (isWord(at) || holds(at)) && mayBe(at),
  );
  const withSpec = (at: number, spec: ColumnSpec): void => {
    const column = changed[at];
    if (column) changed[at] = { ...column, spec };
  };
  const changed = [...columns];
  if (other < 0) {
    const holdsNumbers = devices(ref) > 0 && named(ref) === 0 && DEVICE_WORDS.includes(word(ref));
    if (isAboutOnePart && holdsNumbers) withSpec(ref, DEVICE_COLUMN);
    return changed;
  }
  const byCells = devices(ref) - named(ref) - (devices(other) - named(other));
  const isTurned = byCells > 0 || (byCells === 0 && rankOf(word(other)) > rankOf(word(ref)));
  withSpec(isTurned ? ref : other, DEVICE_COLUMN);
  if (isTurned) withSpec(other, refSpec);
  return changed;
}
