// What an unregulated rail gives with nothing on it: more than its name, by the peak of the sine wave and by what its
// transformer drops under load. All figures: common practice, no source.
import { defined } from "../base/defined";
import type { Rail } from "../knowledge/types";
import { headerWord } from "../log/headers";
import type { Reading } from "../log/model";
import { railNamed } from "../log/stated/rail-name";
import { railNominal } from "./board-parts";
import type { Reference } from "./types";

const PRACTICE = "common practice, no source";
/** A name may be the winding's effective voltage: √2 of it is the peak, and small transformers give a quarter more. */
const BY_NAME = 1.8;
/** A board file's voltage is that of the loaded rail. */
const BY_FILE = 1.5;
/** Voltages that fixed regulators give; a rail of another and no word of a regulator is taken for unregulated. */
const REGULATED = new Set([2.5, 3.3, 5, 5.2, 6, 8, 9, 10, 12, 15, 18, 24]);
/** Of those that both kinds have: 18 V and 24 V are named by their transformer as often as by their regulator. */
const EITHER = new Set([18, 24]);

export const saidLoad = ({ table, subject, row, cell }: Reading): "loaded" | "unloaded" | undefined => {
  const at = table.source.rows[row]?.cells.indexOf(cell) ?? -1;
  const words = [
    headerWord(table.columns[at]?.header.text ?? ""),
    subject.note?.text,
    table.section.heading?.text,
  ];
  for (const text of words) {
    if (text === undefined) continue;
    if (
      /\b(?:un-?loaded|no[- ]load|off[- ]load|nothing (?:on|connected)|board (?:off|out|unplugged))\b/i.test(
        text,
      )
    )
      return "unloaded";
    if (/\b(?:loaded|on load|under load|full load)\b/i.test(text)) return "loaded";
  }
  return table.section.qualifiers.load;
};

/** What stands before a regulator, or feeds coils and lamps; undefined where nothing tells. */
export function isUnregulated(rail: Rail): boolean {
  if (rail.regulator !== undefined) return false;
  const named = railNamed(rail.name);
  if (named?.unregulated || rail.rectifier !== undefined || rail.reservoir !== undefined) return true;
  const volts = Math.abs(railNominal(rail) ?? 0);
  return rail.byName === true && volts > 0 && (EITHER.has(volts) || !REGULATED.has(volts));
}

/**
 * The limits with the room that a rail has without its load: all of it where the log says that nothing was on it, and
 * as a doubt where it says nothing. The very same for regulated rails and loaded ones.
 */
export function withNoLoad(reference: Reference, rail: Rail, reading: Reading): Reference {
  const load = saidLoad(reading);
  const nominal = railNominal(rail);
  if (load === "loaded" || nominal === undefined || nominal === 0 || !isUnregulated(rail)) return reference;
  const most = nominal * (rail.byName ? BY_NAME : BY_FILE);
  const { low = Number.NEGATIVE_INFINITY, high = Number.POSITIVE_INFINITY, beyond } = reference;
  const isWider = nominal > 0 ? most > high : most < low;
  if (!isWider) return reference;
  const source = `${reference.source}; without a load up to the sine wave's peak and the transformer's regulation: ${PRACTICE}`;
  if (load === "unloaded") {
    return defined({
      ...reference,
      of: `${reference.of} with nothing on it`,
      ...(nominal > 0 ? { high: most } : { low: most }),
      beyond: undefined,
      source,
    });
  }
  const room =
    nominal > 0 ? { low: beyond?.low ?? low, high: most } : { low: most, high: beyond?.high ?? high };
  return { ...reference, beyond: room, source };
}
