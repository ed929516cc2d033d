// What one cause makes of one chip of a table, and how the chips of which it is the same are told together.

import { withLater } from "../../base/later";
import { truePin } from "../../compute/together/counts";
import { rowMeant } from "../../compute/together/shifts";
import type { Cause, CauseExplanation } from "../../compute/together/types";
import type { LogTable } from "../../log/model";
import { readingAt } from "../../log/table-pieces";
import type { ChipInTable } from "./rows";
import type { Explained, PartOfCause } from "./types";

/** Another count or shift that nothing in the readings tells from the best one. */
export const asGood = (best: CauseExplanation, causes: readonly CauseExplanation[]): Cause | undefined =>
  isOfPlaces(best.cause)
    ? causes.find(
        ({ cause, margin }) =>
          isOfPlaces(cause) && keyOf(cause) !== keyOf(best.cause) && margin > best.margin - AS_GOOD,
      )?.cause
    : undefined;

const isOfPlaces = ({ kind }: Cause): boolean => kind === "counted" || kind === "shifted";

/** As a natural logarithm: 5 times. */
const AS_GOOD = 1.6;

/** Causes with the same key are one, whichever chip shows them. */
export function keyOf(cause: Cause): string {
  switch (cause.kind) {
    case "counted":
      return `counted ${JSON.stringify(cause.by)}`;
    case "shifted":
      return `shifted ${cause.by} ${cause.wraps}`;
    case "swapped":
      return `swapped ${cause.shows}`;
    case "offset":
      return `offset ${cause.flat}`;
    case "scale":
      return `scale ${cause.factor}`;
    case "lead-on-pin":
      return `lead on ${cause.pin}`;
    default:
      return cause.kind;
  }
}

/** @param told the rows that are told of: right under the cause, and not as typed */
export function partOf(
  chip: ChipInTable,
  { cause, fitting, fitsAsTyped, of }: CauseExplanation,
  told: readonly number[],
  table: LogTable,
): PartOfCause {
  const at = (row: number): Explained | undefined => {
    const number = chip.readingsAt[row];
    const reading = number === undefined ? undefined : readingAt(table, number);
    return reading && { reading, ref: chip.ref, pin: String(chip.rows[row]?.pin) };
  };
  const powerAt = (is: "ground" | "supply"): Explained | undefined =>
    at(chip.rows.findIndex(({ pin, value }) => value !== undefined && chip.windowOf(pin)?.is === is));
  const signals = chip.rows.filter(({ pin, value }) => {
    const is = chip.windowOf(pin)?.is;
    return value !== undefined && (is === "input" || is === "other");
  }).length;
  const ground = powerAt("ground");
  const supply = powerAt("supply");
  const meant = meantBy(cause, chip);
  const part = {
    ref: chip.ref,
    of,
    fitsAsTyped,
    fits: fitting.length,
    signals,
    explained: told.flatMap((row) => at(row) ?? []),
    ...(ground ? { ground } : {}),
    ...(supply ? { supply } : {}),
    ...(meant ? { meant } : {}),
    ...(chip.inLine ? { inLine: true as const } : {}),
  };
  return withLater(part, { readings: () => chip.readings, places: () => chip.places });
}

/** Where each row's content belongs, or undefined where it would push something off or onto something else. */
function meantBy(cause: Cause, { rows, pins }: ChipInTable): number[] | undefined {
  if (cause.kind === "shifted") return meantByShift(cause, rows);
  if (cause.kind !== "counted") return undefined;
  const rowOf = new Map(rows.map(({ pin }, row) => [pin, row]));
  return eachOnce(
    rows.map(({ pin, value }, row) =>
      pin > pins && value === undefined ? row : (rowOf.get(truePin(pin, pins, cause.by)) ?? -1),
    ),
  );
}

/** The same for a column that slid. */
export function meantByShift(
  cause: Extract<Cause, { kind: "shifted" }>,
  rows: readonly { readonly blank: boolean }[],
): number[] | undefined {
  const meant = rows.map((_, row) => rowMeant(row, rows.length, cause));
  // What the stretch moves into is blank, and takes the place of what it leaves.
  if (!cause.wraps) {
    const [gap, left] = cause.by === 1 ? [cause.last + 1, cause.first] : [cause.first - 1, cause.last];
    // A pin read twice: which of the two readings is its own nobody can tell.
    if (!rows[gap]?.blank) return undefined;
    meant[gap] = left;
  }
  return eachOnce(meant);
}

const eachOnce = (meant: number[]): number[] | undefined =>
  new Set(meant).size === meant.length && !meant.includes(-1) ? meant : undefined;

/**
 * The readings of one part, or of all rails of a table, that one cause makes fit as a whole.
 * @param all in the order of the table
 * @param explained those of them that do not fit as typed
 */
export const wholePart = (
  ref: string | undefined,
  all: readonly Explained[],
  explained: readonly Explained[] = all,
): PartOfCause => ({
  ...(ref === undefined ? {} : { ref }),
  of: all.length,
  fitsAsTyped: all.length - explained.length,
  fits: all.length,
  signals: 0,
  readings: all.map(({ reading }) => reading),
  places: all.map(({ reading: { subject, cell } }) => ({ subject, at: cell.span.start })),
  explained,
});
