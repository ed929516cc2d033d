import { memo } from "../../base/memo";
import type { Family } from "../../knowledge/types";
import { formatValue } from "../../quantity/format-value";
import { parseQuantity } from "../../quantity/quantity";
import { positive, type Result, refused } from "../result";

/** Volts: what an input takes for high and low, and what an output promises. */
export interface Levels {
  readonly vih: number;
  readonly vil: number;
  readonly voh: number;
  readonly vol: number;
  readonly source: string;
}

/** A family's levels at the supply its file gives them for; refused where it has none. */
export const familyLevels = memo((family: Family): Result<Levels & { readonly ok: true }> => {
  const given = family.levels;
  if (!given) return { ok: false, reason: `No logic levels are known for ${family.title}.` };
  const volts = (text: string): number => {
    const parsed = parseQuantity(text, { unit: "V" });
    return parsed.ok && parsed.quantity.dimension === "voltage" ? parsed.quantity.value : Number.NaN;
  };
  const levels = {
    vih: volts(given.vih),
    vil: volts(given.vil),
    voh: volts(given.voh),
    vol: volts(given.vol),
    source: given.source,
  };
  const unread = [levels.voh, levels.vol].some(Number.isNaN)
    ? `The promised levels "${given.voh}" and "${given.vol}" of ${family.title} cannot both be read as volts.`
    : undefined;
  return refused(...levelComplaints(levels), unread) ?? { ok: true, ...levels };
});

/** What is wrong with a set of levels; undefined entries where nothing is. */
export const levelComplaints = ({
  vih,
  vil,
}: Pick<Levels, "vih" | "vil">): readonly (string | undefined)[] => [
  positive("least high level", vih, "V"),
  positive("most low level", vil, "V"),
  vil < vih
    ? undefined
    : `The low level (${formatValue(vil, "V")}) reaches the high level (${formatValue(vih, "V")}).`,
];

/** VIH and VIL of the 4000 series, volts by supply: CD4001B data sheet. */
const CD4000: readonly (readonly [supply: number, vih: number, vil: number])[] = [
  [5, 3.5, 1.5],
  [10, 7, 3],
  [15, 11, 4],
];

/**
 * Input levels of a 4000 series part at another supply (V): the printed points, straight lines between them, and
 * below 5 V in proportion. Refuses a supply outside 3 V to 15 V.
 */
export function inputLevels4000(
  supply: number,
): Result<{ readonly ok: true } & Pick<Levels, "vih" | "vil" | "source">> {
  if (!(supply >= 3 && supply <= 15)) {
    return {
      ok: false,
      reason: `A 4000 series part is made for 3 V to 15 V, not ${formatValue(supply, "V")}.`,
    };
  }
  const [first] = CD4000;
  if (first && supply <= first[0]) {
    const scale = supply / first[0];
    const source =
      scale === 1
        ? "CD4001B data sheet"
        : "CD4001B data sheet at 5 V, in proportion to the supply (from memory)";
    return { ok: true, vih: first[1] * scale, vil: first[2] * scale, source };
  }
  const above = CD4000.findIndex(([at]) => at >= supply);
  const [v0, h0, l0] = CD4000[above - 1]!;
  const [v1, h1, l1] = CD4000[above]!;
  const share = (supply - v0) / (v1 - v0);
  return {
    ok: true,
    vih: h0 + share * (h1 - h0),
    vil: l0 + share * (l1 - l0),
    source:
      share === 1 ? "CD4001B data sheet" : `CD4001B data sheet, between its points at ${v0} V and ${v1} V`,
  };
}
