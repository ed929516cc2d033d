// Columns beside the names of rails: volts near what the name says are the rail, small ones are what ripples on it.
import type { ColumnSpec, Procedure } from "../knowledge/types";
import { parseCell } from "../quantity/parse-cell";
import { unitOfHeader } from "../quantity/units";
import type { RowWords } from "../syntax/tables";
import { isForComparison, MOSTLY } from "./content/look";
import { RIPPLE_WORD } from "./content/ripple-word";
import { headerWord } from "./header-word";
import { RIPPLE } from "./measures";
import type { TableColumn } from "./model";
import { railNamed } from "./stated/rail-name";

/** Shares of the voltage named: what a faulty rail may still read, and more than ripple ever is. */
const NEAR: readonly [number, number] = [0.4, 2];
const SMALL = 0.12;

/** Names in place the columns that nothing is known of yet. */
export function inferRails(
  procedure: Procedure,
  named: TableColumn[],
  rows: readonly RowWords[],
  heading: string,
): void {
  const railAt = named.findIndex(({ spec }) => spec?.role === "rail");
  const volts = procedure.columns.find(
    ({ role, required, quantity }) => role === "reading" && required && quantity === "voltage",
  );
  const ripple = procedure.columns.find(({ measure }) => measure === RIPPLE);
  if (!volts || railAt < 0) return;
  named.forEach(({ spec, header }, at) => {
    const word = headerWord(header.text);
    if (spec || header.text === "" || isForComparison(word)) return;
    const found = RIPPLE_WORD.test(header.text) ? ripple : volts;
    const shares = shareOfRails(rows, railAt, at, unitOfHeader(header.text));
    if (
      found === volts &&
      shares.length > 0 &&
      isMost(shares, (share) => share >= NEAR[0] && share <= NEAR[1])
    )
      name(at, volts);
    else if (ripple && shares.length > 0 && isMost(shares, (share) => Math.abs(share) <= SMALL))
      name(at, ripple);
  });
  // "Ripple" as a heading, and a plain column of readings below it.
  const main = named.findIndex(({ spec }) => spec === volts);
  if (ripple && RIPPLE_WORD.test(heading) && main >= 0 && !named.some(({ spec }) => spec === ripple)) {
    const shares = shareOfRails(rows, railAt, main, named[main]?.unit);
    if (shares.length > 0 && isMost(shares, (share) => Math.abs(share) <= SMALL)) name(main, ripple);
  }
  function name(at: number, spec: ColumnSpec): void {
    const column = named[at];
    const unit = column && unitOfHeader(column.header.text);
    if (column) named[at] = { ...column, spec, ...(unit === undefined ? {} : { unit }) };
  }
}

const isMost = (all: readonly number[], is: (one: number) => boolean): boolean =>
  all.filter(is).length / all.length >= MOSTLY;

/** What each cell of a column is of the voltage that its rail names. */
function shareOfRails(
  rows: readonly RowWords[],
  railAt: number,
  at: number,
  unit: string | undefined,
): number[] {
  return rows.flatMap(({ cells }) => {
    const rail = railNamed(cells[railAt]?.text ?? "");
    const value = parseCell(cells[at]?.text ?? "", { kind: "quantity", unit: unit ?? "V" });
    return rail && value.kind === "quantity" && value.quantity.dimension === "voltage"
      ? [value.quantity.value / rail.nominal]
      : [];
  });
}
