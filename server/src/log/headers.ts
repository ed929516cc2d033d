import type { ColumnRole, ColumnSpec, Procedure } from "../knowledge/types";
import { dimensionOfUnit, splitHeader } from "../quantity/units";
import type { Row } from "../syntax/tables";
import type { TableColumn } from "./model";

/** Header words as compared: lower case, without a unit, anything in brackets, dots and doubled blanks. */
export function headerWord(text: string): string {
  return splitHeader(text)
    .word.replace(/[([][^)\]]*[)\]]/g, " ")
    .replace(/[*_`.:#]/g, " ")
    .replace(/\s+/g, " ")
    .trim()
    .toLowerCase();
}

export interface ReadHeader {
  readonly shape: "long" | "wide";
  readonly columns: readonly TableColumn[];
}

/** The spec whose header words hold this word, by procedure; the procedure's own order breaks ties. */
export function specFor(procedure: Procedure, word: string): ColumnSpec | undefined {
  return procedure.columns.find((spec) => spec.headers.some((header) => headerWord(header) === word));
}

/** Where a header is nothing but a unit ("mV"), the first reading not yet named that is measured in it. */
function specOfUnit(
  procedure: Procedure,
  text: string,
  taken: ReadonlySet<ColumnSpec>,
): ColumnSpec | undefined {
  const dimension = text === "" ? undefined : dimensionOfUnit(text);
  return procedure.columns.find(
    (spec) => spec.role === "reading" && spec.quantity === dimension && !taken.has(spec),
  );
}

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
/** What a column under such a word means where two could be the designators: the higher the likelier. */
const REF_RANK: readonly (readonly string[])[] = [
  ["device", "type", "part no", "part number", "partno", "part type", "chip type", "ic type", "device type"],
  ["component", "part", "marking", "marked", "number", "no", "model"],
  ["chip", "ic"],
  ["place", "position", "location", "where", "ref", "refs", "designator", "reference"],
];
/** A column of part numbers in a table whose procedure has no words for one. */
const DEVICE_COLUMN: ColumnSpec = { role: "part", headers: ["Device"], required: false };

/** What the cells of a table say of its columns. */
export interface HeaderHelp {
  readonly rows: readonly Row[];
  readonly isDevice: (text: string) => boolean;
  /** The heading names the part, so that a column of chips can only hold its number. */
  readonly isAboutOnePart: boolean;
  /** Names columns by what they hold. */
  readonly infer: (columns: readonly TableColumn[]) => readonly TableColumn[];
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
function withPlaces(procedure: Procedure, columns: readonly TableColumn[]): readonly TableColumn[] {
  const spec = procedure.columns.find(({ role }) => role === "ref");
  if (!spec || columns.some((column) => column.spec?.role === "ref")) return columns;
  const at = columns.findIndex((column) => !column.spec && PLACE_WORDS.has(headerWord(column.header.text)));
  return at < 0 ? columns : columns.map((column, i) => (i === at ? { ...column, spec } : column));
}

/** Of a column's cells so many have to be of a kind. */
const MOSTLY = 0.7;

/** Beside the designators a table may have a column of the numbers on the parts, whatever is measured. */
function withDevices(
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
    DEVICE_WORDS.includes(word(at)) || isRefWord(word(at)) || PLACE_WORDS.has(word(at));
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

/** Words for a leg that a procedure may not have thought of; "U5 pin" is the column of U5's pins. */
function pinSpec(procedure: Procedure, word: string): ColumnSpec | undefined {
  if (!/^(?:legs?|terminals?|leads?|contacts?|pad|pins?|p|.+ pins?)$/.test(word)) return undefined;
  return procedure.columns.find(({ role }) => role === "pin");
}

/**
 * The role of each column. A table is wide where the procedure has a wide form, its first header names the
 * wide form's rows (or is empty, as over a matrix), and no other header is that of a measured column.
 */
export function readHeader(
  procedure: Procedure,
  header: Row,
  help: HeaderHelp = { rows: [], isDevice: () => false, isAboutOnePart: false, infer: (columns) => columns },
): ReadHeader {
  const taken = new Set<ColumnSpec>();
  const named = header.cells.map((cell): TableColumn => {
    const byName = specFor(procedure, headerWord(cell.text)) ?? pinSpec(procedure, headerWord(cell.text));
    const spec = byName ?? specOfUnit(procedure, cell.text, taken);
    const unit = byName ? splitHeader(cell.text).unit : spec ? cell.text : splitHeader(cell.text).unit;
    const base = unit === undefined ? { header: cell } : { header: cell, unit };
    // A second column under the same word ("Reading", "Reading") is a second reading of the same kind;
    // a second Ref or Pin column is not, and stays unnamed.
    if (!spec || (taken.has(spec) && !isMeasured(spec.role))) return base;
    taken.add(spec);
    return { ...base, spec };
  });
  if (isWide(procedure, named)) return { shape: "wide", columns: named };
  return { shape: "long", columns: withDevices(withPlaces(procedure, help.infer(named)), help) };
}

function isWide(procedure: Procedure, columns: readonly TableColumn[]): boolean {
  const wide = procedure.wide;
  const first = columns[0];
  if (!wide || !first || columns.length < 2) return false;
  const others = columns.slice(1);
  if (others.some((c) => c.spec?.role === wide.columns || (c.spec && isMeasured(c.spec.role)))) return false;
  if (others.every((c) => c.spec)) return false;
  // Designators have figures in them; a word over a column is the name of what was read.
  if (wide.columns === "ref" && !others.some(({ spec, header }) => !spec && /\d/.test(header.text)))
    return false;
  return first.spec?.role === wide.rows || isCorner(first.header.text);
}

/** The corner of a grid: empty, or two words with a stroke between them. */
const isCorner = (text: string): boolean => text === "" || /^[\w ]+\s*[\\/]\s*[\w ]+$/.test(text);

export const isMeasured = (role: ColumnRole): boolean =>
  role === "reading" || role === "state" || role === "result" || role === "check";
