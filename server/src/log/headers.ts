import { memo } from "../base/memo";
import type { ColumnRole, ColumnSpec, Procedure } from "../knowledge/types";
import { dimensionOfUnit, splitHeader } from "../quantity/units";
import type { Row, RowWords } from "../syntax/tables";
import { type HeaderHelp, withDevices, withPlaces } from "./device-column";
import { headerWord } from "./header-word";
import type { TableColumn } from "./model";

export { headerWord } from "./header-word";

export interface ReadHeader {
  readonly shape: "long" | "wide";
  readonly columns: readonly TableColumn[];
}

/** The spec whose header words hold this word, by procedure; the procedure's own order breaks ties. */
export const specFor = (procedure: Procedure, word: string): ColumnSpec | undefined =>
  specsByWord(procedure).get(word);

const specsByWord = memo(({ columns }: Procedure): ReadonlyMap<string, ColumnSpec> => {
  const specs = new Map<string, ColumnSpec>();
  for (const spec of columns) {
    for (const header of spec.headers) {
      const word = headerWord(header);
      if (!specs.has(word)) specs.set(word, spec);
    }
  }
  return specs;
});

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

function holdsNumbers(at: number, { rows, isDevice }: HeaderHelp): boolean {
  const texts = rows.slice(0, 12).flatMap(({ cells }) => cells[at]?.text || []);
  const numbers = texts.filter((text) => /^[A-Za-z]*\d+[A-Za-z]+\d+[A-Za-z]*$/.test(text) && isDevice(text));
  return numbers.length > 0 && numbers.length >= texts.length * 0.7;
}

/** "R", "C" or "D" over designators that begin so is no unit. */
function isInitial(header: string, at: number, rows: readonly RowWords[]): boolean {
  if (!/^[A-Za-z]$/.test(header.trim())) return false;
  const texts = rows.flatMap(({ cells }) => cells[at]?.text || []);
  return texts.length > 0 && texts.every((text) => new RegExp(`^${header.trim()}\\d`, "i").test(text));
}

/** What a word over a column says besides: how an alternating voltage was read, and when. */
const BESIDE = /\s*\b(?:p-p|p ?p|pk-pk|peak to peak|rms|now|measured|read|found|seen today)$/;
/** Words over what is said about a row. */
const ABOUT =
  /^(?:when|how|condition|conditions|state of (?:the )?(?:board|machine)|remark|what for|why|meaning)$/;

/** The word without what it says besides, and the words for a note that a procedure may not have thought of. */
function looserSpec(procedure: Procedure, word: string): ColumnSpec | undefined {
  const bare = word.replace(BESIDE, "");
  const found = bare === word || bare === "" ? undefined : specFor(procedure, bare);
  return found ?? (ABOUT.test(word) ? procedure.columns.find(({ role }) => role === "note") : undefined);
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
export function readHeader(procedure: Procedure, header: Row, help: HeaderHelp = NO_HELP): ReadHeader {
  const taken = new Set<ColumnSpec>();
  const named = header.cells.map((cell, at): TableColumn => {
    if (help.without?.has(at)) return { header: cell };
    if (isInitial(cell.text, at, help.rows)) return { header: cell };
    const word = headerWord(cell.text);
    const byName = specFor(procedure, word) ?? pinSpec(procedure, word) ?? looserSpec(procedure, word);
    const spec = byName ?? specOfUnit(procedure, cell.text, taken);
    // "Value" over the numbers on parts is no column of readings.
    if (spec?.role === "reading" && holdsNumbers(at, help)) return { header: cell };
    const unit = byName ? splitHeader(cell.text).unit : spec ? cell.text : splitHeader(cell.text).unit;
    const base = unit === undefined ? { header: cell } : { header: cell, unit };
    // A second column under the same word ("Reading", "Reading") is a second reading of the same kind;
    // a second Ref or Pin column is not, and stays unnamed.
    if (!spec || (taken.has(spec) && !isMeasured(spec.role))) return base;
    taken.add(spec);
    return { ...base, spec };
  });
  const kept = help.without ? named.filter((_, at) => !help.without?.has(at)) : named;
  if (isWide(procedure, kept)) return { shape: "wide", columns: named };
  const rows = help.without ? help.rows.map((row) => withoutCells(row, help.without)) : help.rows;
  const long = withDevices(withPlaces(procedure, help.infer(kept, rows), { ...help, rows }), {
    ...help,
    rows,
  });
  let at = 0;
  return {
    shape: "long",
    columns: named.map((column, i) => (help.without?.has(i) ? column : (long[at++] ?? column))),
  };
}

const NO_HELP: HeaderHelp = {
  rows: [],
  isDevice: () => false,
  isAboutOnePart: false,
  infer: (columns) => columns,
};

const withoutCells = (row: RowWords, without: ReadonlySet<number> | undefined): RowWords => ({
  cells: row.cells.filter((_, at) => !without?.has(at)),
});

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
const isCorner = (text: string): boolean =>
  text === "" || /^(?:#|no\.?|nr\.?)$/i.test(text) || /^[\w ]+\s*[\\/]\s*[\w ]+$/.test(text);

/** True for columns that hold what was found at a place; the others say which place it is, or something about it. */
export const isMeasured = (role: ColumnRole): boolean =>
  role === "reading" || role === "state" || role === "result" || role === "check";
