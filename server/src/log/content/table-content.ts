// A table as a kind of table is told by it: what its columns are, and the words that stand over it.
import { withLater } from "../../base/later";
import { once } from "../../base/once";
import type { Library } from "../../knowledge/library";
import type { Row, RowWords } from "../../syntax/tables";
import {
  type ColumnLook,
  isChip,
  isDevice,
  isForComparison,
  isLeg,
  isMeasuredIn,
  isNumbering,
  isPart,
  isPin,
  isRail,
  isResult,
  isState,
  isStateWord,
  isSurelyRail,
  lookAt,
  MOSTLY,
  saysUnitOf,
  type TableLook,
} from "./look";

/** What a table without a telling heading holds. */
export interface TableContent {
  readonly look: TableLook;
  /** The words of the heading and of what stands over the table, lower case. */
  readonly words: string;
  readonly headers: readonly string[];
  readonly ref: ColumnLook | undefined;
  readonly device: ColumnLook | undefined;
  readonly pin: ColumnLook | undefined;
  readonly rail: ColumnLook | undefined;
  /** A pin and whose it is are told, by columns or by what stands over the table. */
  readonly hasPins: boolean;
  /** Columns of figures, by what they are of; those for comparison left out. */
  readonly volts: readonly ColumnLook[];
  readonly ohms: readonly ColumnLook[];
  readonly farads: readonly ColumnLook[];
  readonly states: readonly ColumnLook[];
  readonly results: readonly ColumnLook[];
  readonly rows: number;
}

export interface Above {
  readonly words: string;
  readonly isAboutOnePart: boolean;
}

const POWER =
  /\b(?:pwr|power(?:ed)?|suppl(?:y|ies)|rails?|psu|volts?|voltages?|ripple|switch(?:ed)? (?:it )?on|regulators?)\b/;
export const PIN_WORD =
  /^(?:pins?|pin no|pin number|pin nr|legs?|terminals?|leads?|contacts?|pads?|p)$|\bpins?$/;
/** A part that one remark names is not what the rows are of. */
const REMARK = /^(?:notes?|remarks?|comments?|observations?)$/;
export const OHM_WORD = /\b(?:ohms?|resistance|r to (?:gnd|ground)|impedance)\b|[\u03a9\u2126]/;

export function contentOfTable(
  header: Row,
  rows: readonly RowWords[],
  library: Library,
  above: Above,
): TableContent {
  const look = lookAt(header, rows, library);
  const columns = look.columns.filter((column) => column.texts.length > 0);
  const best = (
    is: (text: string) => boolean,
    least: number,
    mayBe: (column: ColumnLook) => boolean = () => true,
  ): ColumnLook | undefined => {
    let found: { column: ColumnLook; share: number } | undefined;
    for (const column of columns) {
      const share = mayBe(column) ? column.share(is) : 0;
      if (share >= least && share > (found?.share ?? 0)) found = { column, share };
    }
    return found?.column;
  };
  const device = best(isDevice(look), MOSTLY);
  const ref = best(
    isPart(look),
    MOSTLY,
    (column) => !REMARK.test(column.word) && (column !== device || !isOnlyNumbers(column)),
  );
  const others = (column: ColumnLook) => column !== ref && column !== device;
  // Chips across the top, each over a column of its readings.
  const across = ref
    ? []
    : columns.filter(({ at, header }) => at > 0 && isChip(header.text) && isPart(look)(header.text));
  // "5", "12" and "-5" are rails where the words over them say so.
  const isRailName = (text: string): boolean =>
    isSurelyRail(text) || (POWER.test(above.words) && /^\d{1,3}(?:[.,]3)?$/.test(text) && isRail(text));
  const rail = ref
    ? undefined
    : best(
        isRailName,
        0.5,
        (column) =>
          isNames(column) &&
          !isOhms(column) &&
          column.dimension === undefined &&
          !PIN_WORD.test(column.word) &&
          column.at < look.columns.length - 1,
      );
  const pin =
    columns.find(
      (column) =>
        others(column) &&
        (PIN_WORD.test(column.word) ||
          (/^(?:#|no\.?|nr\.?)$/i.test(column.header.text) && across.length > 0)),
    ) ??
    best(
      (text) => isPin(text) || isLeg(text),
      MOSTLY,
      (column) => others(column) && column !== rail && mayBePins(column),
    );
  const read = columns.filter(
    (column) => others(column) && column !== pin && column !== rail && !isForComparison(column.word),
  );
  const figures = read.filter((column) => !isNumbering(column) && column !== pin);
  // Most tables are told by their pins alone, and these are the dear ones.
  const ohms = once(() => figures.filter(isOhms));
  const farads = once(() =>
    figures.filter(
      (column) => column.dimension === "capacitance" || column.share(saysUnitOf("capacitance")) >= MOSTLY,
    ),
  );
  const states = once(() => read.filter((column) => isStates(column) && column.share(isState) >= MOSTLY));
  const results = once(() =>
    read.filter((column) => column.share(isResult) >= MOSTLY && !states().includes(column)),
  );
  const volts = once(() =>
    figures.filter(
      (column) =>
        (column.dimension === undefined || column.dimension === "voltage") &&
        ![...ohms(), ...farads(), ...states(), ...results()].includes(column) &&
        column.share(isMeasuredIn("voltage")) >= MOSTLY,
    ),
  );
  const hasPins =
    (pin !== undefined &&
      (ref !== undefined || above.isAboutOnePart || across.length > 0 || isPart(look)(pin.header.text))) ||
    // "U5-4" in one cell says both.
    (ref !== undefined && ref.share((text) => /[-.:]\s*\w{1,3}$|\b(?:pin|leg)\b/i.test(text)) >= MOSTLY);
  return withLater(
    {
      look,
      words: above.words,
      headers: look.columns.map(({ word }) => word),
      ref,
      device,
      pin,
      rail,
      hasPins,
      rows: Math.max(0, ...columns.map(({ texts }) => texts.length)),
    },
    { volts, ohms, farads, states, results },
  );
}

/** Numbers on parts such as 2114 alone, which are no places. */
const isOnlyNumbers = ({ texts }: ColumnLook): boolean =>
  texts.every((text) => /^\d*[A-Z]*\d+[A-Z]*$/i.test(text));

const isOhms = (column: ColumnLook): boolean =>
  column.dimension === "resistance" ||
  (column.dimension === undefined &&
    (column.share(saysUnitOf("resistance")) >= 0.5 ||
      (OHM_WORD.test(column.word) && column.share(isMeasuredIn("resistance")) >= MOSTLY)));

/** Names of rails and no readings: readings have decimals, and hardly two of them are the same. */
const isNames = ({ texts }: ColumnLook): boolean =>
  texts.filter((text) => /\d[.,]\d{2,}/.test(text)).length * 2 < texts.length;

const mayBePins = ({ texts, header }: ColumnLook): boolean =>
  !/\d|\b(?:rows?|col(?:umn)?s?)\b/i.test(header.text) &&
  new Set(texts).size > 1 &&
  texts.some((text) => !/^[01]$/.test(text));

/** "1" and "0" are states where both stand there and nothing else but states. */
const isStates = (column: ColumnLook): boolean =>
  column.share(isStateWord) >= 0.3 ||
  (new Set(column.texts).size === 2 && column.texts.includes("0") && column.texts.includes("1"));
