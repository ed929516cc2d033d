import { formatValue, sayUncertainty } from "../../quantity/format-value";
import type { Comparison, Extent, Uncertainty } from "./compare";

/** As it is told at the bench, where infinite is open and an uncertainty has two digits; or every number as it stands. */
export type FormulaStyle = "bench" | "arithmetic";

/** The comparison with its numbers in it: "5.28 V ± 20 mV > 5.25 V", "4.75 V ≤ 5 V ≤ 5.25 V". */
export function comparisonText(found: Comparison, told: FormulaStyle): string {
  const { verdict, limit, extent, limits, uncertainty } = found;
  const { unit } = limits;
  const low = limits.low ?? Number.NEGATIVE_INFINITY;
  const high = limits.high ?? Number.POSITIVE_INFINITY;
  const value = told === "bench" ? extentText(extent, unit) : formatValue(extent.low, unit);
  const read = `${value}${spreadText(uncertainty, unit, told)}`;
  if (limit !== undefined) {
    const end = formatValue(limit === "high" ? high : low, unit);
    if (verdict === "suspect" && !found.isBetween) return `${read} straddles ${end}`;
    return `${read} ${limit === "high" ? ">" : "<"} ${end}`;
  }
  const from = Number.isFinite(low) ? `${formatValue(low, unit)} ≤ ` : "";
  const to = Number.isFinite(high) ? ` ≤ ${formatValue(high, unit)}` : "";
  return `${from}${read}${to}`;
}

/** "0.58 V", "0.3 V to 0.4 V", "over 20 MΩ", "open". */
function extentText({ low, high }: Extent, unit: string): string {
  if (low === high) return Number.isFinite(low) ? formatValue(low, unit) : "open";
  if (!Number.isFinite(high)) return `over ${formatValue(low, unit)}`;
  if (!Number.isFinite(low)) return `under ${formatValue(high, unit)}`;
  return `${formatValue(low, unit)} to ${formatValue(high, unit)}`;
}

function spreadText(uncertainty: Uncertainty, unit: string, told: FormulaStyle): string {
  if (typeof uncertainty === "number") {
    const half = told === "bench" ? sayUncertainty(uncertainty, unit) : formatValue(uncertainty, unit);
    return uncertainty > 0 ? ` ± ${half}` : "";
  }
  const [lowest, highest] = uncertainty;
  return lowest === highest ? "" : ` (${formatValue(lowest, unit)} to ${formatValue(highest, unit)})`;
}
