// Columns whose header nobody has thought of: what their cells hold tells what they are. Only a column that the table
// cannot do without is looked for, and only where its cells leave little doubt.
import { defined } from "../base/defined";
import type { Library } from "../knowledge/library";
import type { ColumnSpec, Procedure } from "../knowledge/types";
import { parseCell } from "../quantity/cell-value";
import type { Row } from "../syntax/tables";
import type { TableColumn } from "./model";
import { partWords } from "./part-words";
import { railNamed } from "./stated/rail-name";

/** Of the cells with something in them so many have to be of a kind. */
const SHARE = 0.7;

/** Headers of a reading taken again under other circumstances. */
const TWICE =
  /^(?:no load|(?:un)?loaded|with(?:out)? load|idle|running|cold|warm|hot|in circuit|out of circuit)$/i;

/** The columns with the missing ones named; the very same where none is missing or nothing fits. */
export function inferred(
  procedure: Procedure,
  columns: readonly TableColumn[],
  rows: readonly Row[],
  library: Library,
  isAboutOnePart: boolean,
): readonly TableColumn[] {
  if (rows.length === 0) return columns;
  const named = [...columns];
  const cellsAt = (at: number): string[] => rows.flatMap(({ cells }) => cells[at]?.text || []);
  const name = (
    spec: ColumnSpec | undefined,
    fits: (text: string) => boolean,
    least = SHARE,
    isFree = (own: ColumnSpec | undefined): boolean => own === undefined,
  ): void => {
    if (!spec || named.some((column) => column.spec === spec)) return;
    const shares = named.map(({ spec: own, header }, at) => {
      // A header with a figure in it ("Pin 2") is one of several of a kind, and what a row is of stands across.
      // Over designators many write nothing.
      const isNamed = header.text !== "" || spec.role === "ref";
      const cells = !isFree(own) || !isNamed || /\d/.test(header.text) ? [] : cellsAt(at);
      return cells.length === 0 ? 0 : cells.filter(fits).length / cells.length;
    });
    const best = Math.max(...shares);
    const at = shares.indexOf(best);
    const column = named[at];
    if (column && best >= least) named[at] = { ...column, spec };
  };
  const has = (role: ColumnSpec["role"]): boolean => named.some(({ spec }) => spec?.role === role);
  const specOf = (role: ColumnSpec["role"]): ColumnSpec | undefined =>
    procedure.columns.find((spec) => spec.role === role);

  // Rails may stand under "Point" or "Test point", which else are a signal's or a part's words.
  const rail = specOf("rail");
  const isRail = (text: string): boolean => railNamed(text) !== undefined;
  if (rail?.required && !has("ref")) name(rail, isRail, 0.5);
  else name(rail, isRail, SHARE, (own) => !own || own.role === "signal" || own.role === "ref");
  if (specOf("ref")?.required && !has("ref") && !isAboutOnePart)
    name(
      specOf("ref"),
      (text) => partWords({ text, span: { start: 0, end: 0 } }, library) !== undefined,
      SHARE,
      // "Reference" is a reading to compare with, or a reference designator.
      (own) => own === undefined || own.role === "expected",
    );
  const pin = specOf("pin");
  if (pin?.required && !has("pin") && has("ref")) {
    name(pin, (text) => /^(?:\d{1,2}|[A-Z]{1,3}\d?)$/i.test(text) && !isState(text));
  } else if (pin?.required && !has("pin") && isAboutOnePart) {
    name(pin, (text) => /^\d{1,2}$/.test(text));
  }
  const measured = procedure.columns.find(
    ({ role, required }) => required && (role === "reading" || role === "state"),
  );
  const fits = (text: string): boolean =>
    measured !== undefined && (measured.role === "state" ? isState(text) : isReading(text, measured));
  if (measured && !named.some(({ spec }) => spec === measured)) name(measured, fits);
  // "No load" and "Loaded", "Cold" and "Warm" are two readings of one place.
  named.forEach(({ spec, header }, at) => {
    const cells = spec || !TWICE.test(header.text) ? [] : cellsAt(at);
    if (measured && cells.length > 0 && cells.filter(fits).length / cells.length >= SHARE)
      named[at] = { ...(named[at] as TableColumn), spec: measured };
  });
  return named.some((column, at) => column !== columns[at]) ? named : columns;
}

const isState = (text: string): boolean => parseCell(text, { kind: "state" }).kind === "state";

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
