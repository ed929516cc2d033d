// What the cells of a table say by themselves, whatever stands over them: designators, numbers on parts, pins, rails, volts,
// ohms, states. A sample of a long table is enough to know its kind.
import { defined } from "../../base/defined";
import { once } from "../../base/once";
import type { Library } from "../../knowledge/library";
import type { CellValue } from "../../quantity/cell-value";
import { parseCell } from "../../quantity/parse-cell";
import { type Dimension, dimensionOfUnit, unitOfHeader } from "../../quantity/units";
import type { Cell, Row, RowWords } from "../../syntax/tables";
import { isDitto } from "../cell-text";
import { headerWord } from "../header-word";
import { partWords } from "../part-words";
import { railNamed } from "../stated/rail-name";

/** Of a column's cells so many have to be of a kind. */
export const MOSTLY = 0.7;
/** Rows looked at. */
const SAMPLE = 60;

/** What a column's cells have in common; of a long table the first rows are looked at. */
export interface ColumnLook {
  readonly at: number;
  readonly header: Cell;
  /** As compared; see `headerWord`. */
  readonly word: string;
  /** Of the unit that the header names. */
  readonly dimension?: Dimension;
  /** Cells with something in them. */
  readonly texts: readonly string[];
  /** How many of its cells are so, 0 to 1. */
  readonly share: (is: (text: string) => boolean) => number;
}

export interface TableLook {
  readonly columns: readonly ColumnLook[];
  readonly library: Library;
}

export function lookAt(header: Row, rows: readonly RowWords[], library: Library): TableLook {
  const some = rows.length > SAMPLE ? rows.slice(0, SAMPLE) : rows;
  return {
    library,
    columns: header.cells.map((cell, at): ColumnLook => {
      const texts = some.flatMap(({ cells }) => plain(cells[at]?.text ?? "") || []);
      const unit = unitOfHeader(cell.text);
      // A designator stands in each of its chip's rows, and is asked about once.
      const counts = once(() => {
        const found = new Map<string, number>();
        for (const text of texts) found.set(text, (found.get(text) ?? 0) + 1);
        return found;
      });
      return defined({
        at,
        header: cell,
        word: headerWord(cell.text),
        dimension: unit === undefined ? undefined : dimensionOfUnit(unit),
        texts,
        share: (is: (text: string) => boolean) => {
          let so = 0;
          for (const [text, times] of counts()) if (is(text)) so += times;
          return texts.length === 0 ? 0 : so / texts.length;
        },
      });
    }),
  };
}

const plain = (text: string): string => (isDitto(text) ? "" : text.replace(/^[*_`]+|[*_`]+$/g, "").trim());

/** A designator, with its pin or number beside it or alone. */
export const isPart =
  ({ library }: TableLook) =>
  (text: string): boolean =>
    partWords({ text, span: { start: 0, end: text.length } }, library) !== undefined;

/** A number that the library knows; "2114" is one, "12" is none. */
export const isDevice =
  ({ library }: TableLook) =>
  (text: string): boolean =>
    /\d{2}/.test(text) && library.device(text) !== undefined;

/** The designator of a chip, or a place such as 2C where chips stand. */
export const isChip = (text: string): boolean =>
  /^(?:(?:U|IC|Z|N|M)\s?\d|\d{1,2}[A-Z]\b|[A-Z]\d{1,2}\b)/i.test(text) && !/^[RCQDLJPTF]\d/i.test(text);

/** True for the designator of a diode: "D3", "CR12", "LED1". */
export const isDiode = (text: string): boolean => /^(?:D|CR|ZD|DZ|LED|DS|DI|VD)\s?\d/i.test(text);

/** True for a pin's number by itself or behind its word: "3", "pin 3". */
export const isPin = (text: string): boolean => /^(?:(?:pin|leg|p)\s*\.?\s*)?\d{1,2}$/i.test(text);

/** True for the letter or the name of a leg: "b", "emitter", "anode". */
export const isLeg = (text: string): boolean =>
  /^(?:[abcdegks]|b|c|e|base|collector|emitter|anode|cathode|gate|drain|source|in(?:put)?|out(?:put)?|gnd|ground|adj(?:ust)?|tab|case|common|com)$/i.test(
    text,
  );

/** A rail by a name that says its voltage with a sign or a unit, or by habit. */
export const isRail = (text: string): boolean => railNamed(text) !== undefined;

export const isSurelyRail = (text: string): boolean => /v|[+\u2212-]/i.test(text) && isRail(text);

const measuredIn = (text: string, unit?: string): CellValue =>
  parseCell(text, defined({ kind: "quantity" as const, unit }));

/** A figure alone, or one with a unit of this kind; overload and short too. */
export const isMeasuredIn =
  (dimension: Dimension) =>
  (text: string): boolean => {
    const value = measuredIn(text);
    switch (value.kind) {
      case "open":
      case "short":
        return true;
      case "quantity":
      case "bound":
        return value.quantity.dimension === dimension || value.quantity.dimension === "count";
      case "range":
        return value.high.dimension === dimension || value.high.dimension === "count";
      default:
        return false;
    }
  };

/** A figure with a unit of this kind typed in the cell. */
export const saysUnitOf =
  (dimension: Dimension) =>
  (text: string): boolean => {
    const value = measuredIn(text);
    return (value.kind === "quantity" || value.kind === "bound") && value.quantity.dimension === dimension;
  };

/** True for the words of a logic probe: "H", "low", "pulsing", "hi-z". */
export const isState = (text: string): boolean => parseCell(text, { kind: "state" }).kind === "state";

/** A state in letters: "1" and "0" may be anything. */
export const isStateWord = (text: string): boolean => !/^[01]$/.test(text) && isState(text);

export const isResult = (text: string): boolean => parseCell(text, { kind: "result" }).kind === "result";

/** Volts of a cell, figures without a unit taken for volts, those of a column in millivolts for those. */
export function voltsOf(text: string, dimensionUnit: string | undefined): number | undefined {
  const value = measuredIn(text, dimensionUnit ?? "V");
  return value.kind === "quantity" && value.quantity.dimension === "voltage"
    ? value.quantity.value
    : undefined;
}

/** 1, 2, 3 ... down the table: the writer's own numbering. */
export function isNumbering({ texts }: ColumnLook): boolean {
  const numbers = texts.map((text) => (/^\d{1,4}[.)]?$/.test(text) ? Number.parseInt(text, 10) : Number.NaN));
  return numbers.length > 1 && numbers.every((n, i) => i === 0 || n === (numbers[i - 1] ?? 0) + 1);
}

/** Headers of figures that were not read here: what it should be, what another board reads, bounds. */
export const isForComparison = (word: string): boolean =>
  /\b(?:expect(?:ed)?|nominal|nom|should|ought|spec|target|typ(?:ical)?|normal|usual(?:ly)?|good|known|ref(?:erence)?|sister|other board|last time|previous(?:ly)?|earlier|before the|min(?:imum)?|max(?:imum)?|limits?|low limit|high limit|tol(?:erance)?|allowed|window|range|date|time|soll(?:wert)?|want(?:ed)?|data ?sheet|book|print|schematic|marked|marking|code|rated|rating|delta|diff(?:erence)?|deviation|error|%|load current|current|amps?|draw)\b/.test(
    word,
  );

const isFigure = (text: string): boolean => isMeasuredIn("voltage")(text) || isMeasuredIn("resistance")(text);

/** True where most of a column's cells hold a number with or without a unit. */
export const holdsFigures = (column: ColumnLook): boolean => column.share(isFigure) >= MOSTLY;
/** True where most of a column's cells hold a logic state. */
export const holdsStates = (column: ColumnLook): boolean => column.share(isState) >= MOSTLY;
