// A reading typed without its point, "58" for 0.58 V: offered where the number as it stands cannot be meant.
import { defined } from "../../base/defined";
import { type Judgement, judgeBlock } from "../../judge";
import { findRail } from "../../judge/rail-name";
import type { CellPosition } from "../../log/position";
import { VERDICT_MARKS } from "../../pictures/marks";
import { parseQuantity } from "../../quantity/quantity";
import type { Completion } from "../types";
import type { LogView } from "../view";

/** Digits as typed: two at least, for one may be the first of several. */
const DIGITS = /^([-\u2212]?)(\d{2,5})$/;
/** Volts that no diode range shows, where the procedure does not say; common practice, no source. */
const DIODE_LIMIT = 3;
/** Volts that no logic level of a board of these years reaches unless it is broken; common practice, no source. */
const LEVEL_LIMIT = 6;
/** Volts of ripple from which on millivolts are meant; common practice, no source. */
const RIPPLE_LIMIT = 1;
/** A rail this far from its nominal value, as a ratio, is rather a point in another place. */
const FAR = 0.5;

/**
 * Readings that the digits in the cell may stand for, the likeliest first. What is typed stays what it is unless one is
 * taken. Nothing where the number is as good a reading as it stands.
 */
export function fromDigits(view: LogView, at: CellPosition): readonly Completion[] {
  const typed = at.cell.text;
  const match = DIGITS.exec(typed);
  if (!match || (at.role !== "reading" && at.role !== "expected")) return [];
  const [, sign = "", digits = ""] = match;
  const unit = at.table.columns[at.column]?.unit ?? at.spec?.unit;
  if (unit === undefined) return [];
  const style = styleOf(at, unit);
  const pointed = at.reading && judgeBlock(at.placed.block, view.ctx).get(at.reading)?.mayBe;
  if (pointed && pointed.length > 0) return pointedItems(at, pointed, unit, style);
  const numbers = digits.startsWith("0")
    ? [cut(digits, 1)]
    : unit === "V"
      ? candidates(view, at, sign, digits, style)
      : [];
  return [...new Set(numbers)].map((number, index) => {
    const own = /[a-z]/i.test(number) ? number : `${number}${style.withUnit ? ` ${unit}` : ""}`;
    const label = sign + own.replace(".", style.mark);
    return defined({
      label,
      kind: "value",
      span: at.edit,
      newText: label,
      filterText: typed,
      preselect: index === 0 ? true : undefined,
    });
  });
}

/** What the digits of a diode check may be, the likelier by the pin's window first, each with its verdict. */
function pointedItems(
  at: CellPosition,
  pointed: NonNullable<Judgement["mayBe"]>,
  unit: string,
  style: Style,
) {
  const decimals = (text: string) => /\.(\d+)/.exec(text)?.[1]?.length;
  const [first] = pointed;
  // As many decimals as are written above tell nothing of the pin, so they decide only between the same verdicts.
  const ordered = pointed.toSorted(
    (a, b) =>
      Number(b.verdict === first?.verdict) - Number(a.verdict === first?.verdict) ||
      Number(decimals(b.text) === style.decimals) - Number(decimals(a.text) === style.decimals),
  );
  return ordered.map(({ text, verdict }, index): Completion => {
    const label = `${text.split(" ")[0]}${style.withUnit ? ` ${unit}` : ""}`.replace(".", style.mark);
    const { glyph, words } = VERDICT_MARKS[verdict];
    return defined({
      label,
      kind: "value",
      description: verdict === "unjudged" ? undefined : `${glyph} ${words}`,
      span: at.edit,
      newText: label,
      filterText: at.cell.text,
      preselect: index === 0 ? true : undefined,
      byItself: pointed.length === 1 ? true : undefined,
    });
  });
}

/** The point behind so many digits; "0." before them all. */
const cut = (digits: string, whole: number): string =>
  whole <= 0 ? `0.${"0".repeat(-whole)}${digits}` : `${digits.slice(0, whole)}.${digits.slice(whole)}`;

function candidates(view: LogView, at: CellPosition, sign: string, digits: string, style: Style): string[] {
  const measure = at.spec?.measure ?? "";
  const { procedure } = at.table;
  const below = (limit: number) => (text: string) => Number(text) <= limit;
  const points = [1, 2, 3].filter((whole) => whole < digits.length).map((whole) => cut(digits, whole));
  if (procedure.meter?.function === "diode") {
    const limit = volts(procedure.meter.testVoltage) ?? DIODE_LIMIT;
    if (Number(digits) <= limit) return [];
    // All the digits a meter shows, or the first of them behind "0.".
    const shown =
      digits.length <= style.decimals ? cut(digits, 0) : cut(digits, digits.length - style.decimals);
    return [
      shown,
      cut(digits, digits.length - style.decimals),
      ...points,
      ...(digits.length <= 3 ? [cut(digits, 0)] : []),
    ].filter(below(limit));
  }
  if (measure === "ripple") {
    return Number(digits) >= RIPPLE_LIMIT ? [`${Number(digits)} mV`] : [];
  }
  if (measure === "level") {
    return Number(digits) <= LEVEL_LIMIT ? [] : [...points, cut(digits, 0)].filter(below(LEVEL_LIMIT));
  }
  const board = view.ctx.board?.value;
  const rail = board && findRail(board, at.table.rows[at.row]?.cells.rail?.text ?? "");
  const nominal = rail && volts(rail.nominal);
  if (nominal === undefined || nominal === 0) return [];
  // The sign is what the meter showed: it is never made up to fit the rail.
  const near = (text: string) => Math.abs(Number((sign && "-") + text) / nominal - 1) <= FAR;
  return near(digits) ? [] : points.filter(near);
}

const volts = (text: string | undefined): number | undefined => {
  const read = text === undefined ? undefined : parseQuantity(text, { unit: "V" });
  return read?.ok ? read.quantity.value : undefined;
};

interface Style {
  readonly withUnit: boolean;
  readonly mark: "." | ",";
  readonly decimals: number;
}

/** As the column's readings above are written; with the unit where none is and the header does not say it. */
function styleOf(at: CellPosition, unit: string): Style {
  const above = at.table.source.rows
    .slice(0, at.row)
    .map((row) => row.cells[at.column]?.text ?? "")
    .findLast((text) => /^[-\u2212]?\d*[.,]?\d+(?:\s*[a-zµΩ%]+)?$/i.test(text));
  const fraction = /[.,](\d+)/.exec(above ?? "")?.[1];
  return {
    withUnit: above === undefined ? at.table.columns[at.column]?.unit === undefined : above.endsWith(unit),
    mark: above?.includes(",") ? "," : ".",
    decimals: fraction?.length ?? 3,
  };
}
