// Columns whose header nobody has thought of: what their cells hold tells what they are. Only what the table cannot do
// without is looked for, and only where its cells leave little doubt.
import { defined } from "../base/defined";
import type { Library } from "../knowledge/library";
import type { ColumnSpec, Procedure } from "../knowledge/types";
import { readBeep } from "../quantity/beeper";
import { parseCell } from "../quantity/parse-cell";
import type { RowWords } from "../syntax/tables";
import { isForComparison, isLeg, isPin, isState, MOSTLY } from "./content/look";
import { headerWord } from "./header-word";
import { inferRails } from "./infer-rails";
import { CONTINUITY } from "./measures";
import type { TableColumn } from "./model";
import { partWords } from "./part-words";
import { railNamed } from "./stated/rail-name";

/** What stands over a table's columns. */
export interface Over {
  readonly procedure: Procedure;
  readonly heading: string;
  readonly isAboutOnePart: boolean;
}

/** The columns with the missing ones named; the very same where none is missing or nothing fits. */
export function inferred(
  { procedure, heading, isAboutOnePart }: Over,
  columns: readonly TableColumn[],
  rows: readonly RowWords[],
  library: Library,
): readonly TableColumn[] {
  if (rows.length === 0) return columns;
  const named = [...columns];
  const cellsAt = (at: number): string[] => rows.flatMap(({ cells }) => cells[at]?.text || []);
  const shareOf = (at: number, fits: (text: string) => boolean): number => {
    const cells = cellsAt(at);
    return cells.length === 0 ? 0 : cells.filter(fits).length / cells.length;
  };
  const name = (
    spec: ColumnSpec | undefined,
    fits: (text: string) => boolean,
    least = MOSTLY,
    isFree = (own: ColumnSpec | undefined): boolean => own === undefined,
  ): void => {
    if (!spec || named.some((column) => column.spec === spec)) return;
    const shares = named.map(({ spec: own, header }, at) => {
      // A header with a figure in it ("Pin 2") is one of several of a kind, and what a row is of stands across.
      // Over designators many write nothing.
      const isNamed =
        header.text !== "" || spec.role === "ref" || spec.role === "rail" || spec.role === "pin";
      if (!isFree(own) || !isNamed || (/\d/.test(header.text) && !partWords(header, library))) return 0;
      // The writer's own numbering is nobody's pin and no rail.
      return isNumbering(cellsAt(at)) && (header.text === "#" || spec.role !== "pin") ? 0 : shareOf(at, fits);
    });
    const best = Math.max(...shares);
    const at = shares.indexOf(best);
    const column = named[at];
    if (column && best >= least) named[at] = { ...column, spec };
  };
  const has = (role: ColumnSpec["role"]): boolean => named.some(({ spec }) => spec?.role === role);
  const specOf = (role: ColumnSpec["role"]): ColumnSpec | undefined =>
    procedure.columns.find((spec) => spec.role === role);
  const isPart = (text: string): boolean =>
    partWords({ text, span: { start: 0, end: text.length } }, library) !== undefined;

  const hasPin = (text: string): boolean =>
    partWords({ text, span: { start: 0, end: text.length } }, library)?.pin !== undefined;

  // Rails may stand under "Point" or "Test point", which else are a signal's or a part's words.
  const rail = specOf("rail");
  const isRail = (text: string): boolean => railNamed(text) !== undefined && !/\d[.,]\d{2,}/.test(text);
  const hasParts = has("ref") || named.some((_, at) => shareOf(at, isPart) >= MOSTLY);
  if (rail?.required && !hasParts) name(rail, isRail, 0.5);
  else if (!hasParts || has("ref"))
    name(rail, isRail, MOSTLY, (own) => !own || own.role === "signal" || own.role === "ref");
  if (specOf("ref") && !has("ref") && !has("rail") && !isAboutOnePart)
    name(
      specOf("ref"),
      isPart,
      MOSTLY,
      // "Reference" is a reading to compare with, or a reference designator.
      (own) => own === undefined || own.role === "expected",
    );
  // Places such as 3F are only that under a word for places, or where a part is known by them.
  if (specOf("ref")?.required && !has("ref") && !isAboutOnePart) {
    const at = named.findIndex(
      ({ spec, header }, i) =>
        !spec && PLACE.test(headerWord(header.text)) && shareOf(i, (text) => GRID.test(text)) >= MOSTLY,
    );
    if (at >= 0) named[at] = { ...(named[at] as TableColumn), spec: specOf("ref") as ColumnSpec };
  }
  const pin = specOf("pin");
  if (pin?.required && !has("pin") && has("ref")) {
    name(pin, (text) => /^(?:\d{1,2}|[A-Z]{1,3}\d?)$/i.test(text) && !isState(text));
  } else if (pin && !has("pin") && isAboutOnePart) {
    name(pin, (text) => isPin(text) || hasPin(text));
  }
  if (pin && !has("pin") && (has("ref") || isAboutOnePart)) name(pin, isLeg);

  const isOf = ({ role }: ColumnSpec): boolean => role === "reading" || role === "state" || role === "result";
  const measured =
    procedure.columns.find((spec) => spec.required && isOf(spec)) ?? procedure.columns.find(isOf);
  const fits = (text: string): boolean => measured !== undefined && isMeasured(text, measured);
  const free = (at: number): boolean => {
    const { spec, header } = named[at] as TableColumn;
    return !spec && header.text !== "" && !isForComparison(headerWord(header.text));
  };
  if (has("rail")) inferRails(procedure, named, rows, heading);
  if (measured && !named.some(({ spec }) => spec === measured)) {
    // "Before" and "After", "Cold" and "Warm" are readings of one place.
    const all = named.flatMap((_, at) =>
      free(at) && shareOf(at, fits) >= MOSTLY && !isNumbering(cellsAt(at)) ? [at] : [],
    );
    const some = all.length > 0 || measured.role === "result" ? all : blankReadings();
    for (const at of some) named[at] = { ...(named[at] as TableColumn), spec: measured };
  } else if (measured) {
    named.forEach(({ header }, at) => {
      if (free(at) && TWICE.test(header.text) && shareOf(at, fits) >= MOSTLY)
        named[at] = { ...(named[at] as TableColumn), spec: measured };
    });
  }
  const expected = specOf("expected");
  if (expected && !has("expected")) {
    const at = named.findIndex(
      ({ spec, header }, i) =>
        !spec &&
        EXPECTED.test(headerWord(header.text)) &&
        shareOf(i, (text) => isMeasured(text, expected)) >= MOSTLY,
    );
    if (at >= 0) named[at] = { ...(named[at] as TableColumn), spec: expected };
  }
  return named.some((column, at) => column !== columns[at]) ? named : columns;

  /** A column without a header is one of readings where it alone holds any. */
  function blankReadings(): number[] {
    const all = named.flatMap(({ spec, header }, at) =>
      !spec && header.text === "" && at > 0 && shareOf(at, fits) >= MOSTLY ? [at] : [],
    );
    return all.length === 1 ? all : [];
  }
}

/** What it should be by the board's own words. */
const EXPECTED = /\b(?:nominal|expected|should|ought|marked|marking|rated|printed|code|spec)\b/;
const PLACE =
  /^(?:loc(?:ation|n)?|place|pos(?:ition|n)?|where|grid|coord(?:inate)?s?|chip|ic|at|ref|part|device|socket|board loc(?:ation)?)$/;
const GRID = /^(?:\d{1,2}[A-Za-z]|[A-Za-z]\d{1,2})$/;

/** Headers of a reading taken again under other circumstances. */
const TWICE =
  /\b(?:no load|off load|(?:un)?loaded|with(?:out)? load|(?:un)?powered|idle|running|cold|warm|hot|in circuit|out of circuit|before|after|first|second|again|now|then|1st|2nd|twice|repeat(?:ed)?|leads? (?:reversed|swapped)|today|later)\b/i;

/** 1, 2, 3 ... down the table. */
const isNumbering = (texts: readonly string[]): boolean =>
  texts.length > 1 &&
  texts.every(
    (text, i) =>
      /^\d{1,4}[.)]?$/.test(text) &&
      (i === 0 || Number.parseInt(text, 10) === Number.parseInt(texts[i - 1] ?? "", 10) + 1),
  );

function isMeasured(text: string, spec: ColumnSpec): boolean {
  if (spec.role === "state") return isState(text);
  if (spec.role === "result") return parseCell(text, { kind: "result" }).kind === "result";
  const isFigure = isReading(text, spec);
  if (isFigure || spec.measure !== CONTINUITY) return isFigure;
  const beside = (figure: string) => (isReading(figure, spec) ? { kind: "quantity" as const } : undefined);
  return readBeep(text, beside) !== undefined;
}

function isReading(text: string, { unit, quantity }: ColumnSpec): boolean {
  const value = parseCell(text, defined({ kind: "quantity", unit }));
  switch (value.kind) {
    case "open":
    case "short":
      return true;
    case "quantity":
    case "bound":
      return value.quantity.dimension === quantity;
    case "range":
      return value.high.dimension === quantity;
    default:
      return false;
  }
}
