// A linear regulator's two limits: enough voltage across it to regulate, not so much that it overheats.
// Negative regulators (7905) are given their voltages with the sign as read.

import { formatValue } from "../../quantity/format-value";
import type { Saying } from "../../text/saying";
import { compareToLimits } from "../limits/compare";
import { comparisonText } from "../limits/text";
import { type Computed, computed, finite, notNegative, positive, type Result, refused } from "../result";
import type { Assessment } from "../verdict";

const HEADROOM = "definition: lowest input less output less dropout";
const POWER = "power = voltage across the part × current through it";

const apart = (input: number, output: number): string | undefined =>
  Math.sign(input) * Math.sign(output) < 0
    ? `The input (${formatValue(input, "V")}) and the output (${formatValue(output, "V")}) must have the same sign.`
    : undefined;

/** The lowest point of a rail in V from its average (as a meter on DC shows it) and its ripple, peak to peak. */
export function valley(input: { readonly average: number; readonly ripple: number }): Result {
  const { average, ripple } = input;
  const bad = refused(finite("average", average, "V"), notNegative("ripple", ripple, "V"));
  if (bad) return bad;
  const half = average < 0 ? -ripple / 2 : ripple / 2;
  return computed(
    average - half,
    "V",
    `${formatValue(average, "V")} ${average < 0 ? "+" : "-"} ${formatValue(ripple, "V")} / 2`,
    "ripple taken as even about the average (a sawtooth); common practice, no source",
  );
}

export interface HeadroomInput {
  /** Lowest input under load in V: the bottom of the ripple. See `valley`. */
  readonly inputMinimum: number;
  readonly output: number;
  /** What the data sheet wants across the part, in V above zero; its source is the caller's to name. */
  readonly dropout: number;
  readonly dropoutSource: string;
  /** Half-width of the uncertainty of input less output, in V. */
  readonly uncertainty?: number;
}

/** What is left above dropout, in V; below zero the output follows the ripple. */
export function dropoutHeadroom(input: HeadroomInput): Result<Assessment & { readonly headroom: Computed }> {
  const { inputMinimum, output, dropout, uncertainty = 0 } = input;
  const bad = refused(
    finite("input voltage", inputMinimum, "V"),
    finite("output voltage", output, "V"),
    notNegative("dropout", dropout, "V"),
    notNegative("uncertainty", uncertainty, "V"),
    apart(inputMinimum, output),
  );
  if (bad) return bad;
  const headroom = computed(
    Math.abs(inputMinimum) - Math.abs(output) - dropout,
    "V",
    `${formatValue(Math.abs(inputMinimum), "V")} - ${formatValue(Math.abs(output), "V")} - ${formatValue(dropout, "V")}`,
    HEADROOM,
  );
  if (!headroom.ok) return headroom;
  const { verdict, side } = compareToLimits(headroom.value, { low: 0, unit: "V" }, { uncertainty });
  const across = formatValue(Math.abs(inputMinimum) - Math.abs(output), "V");
  const fact = `At its lowest the input is ${across} above the output; the regulator needs ${formatValue(dropout, "V")}.`;
  const says: Saying =
    verdict === "within-limits"
      ? { fact }
      : verdict === "suspect"
        ? { fact, cause: "Too close to tell.", step: "Look at the input with an oscilloscope." }
        : {
            fact,
            cause: "The ripple comes through the regulator.",
            step: "Check the reservoir capacitor, the bridge and the load before the regulator.",
          };
  const { formula } = headroom;
  return { ok: true, verdict, side, says, formula, source: input.dropoutSource, headroom };
}

export interface DissipationInput {
  /** Average input in V, output in V, load current in A. */
  readonly input: number;
  readonly output: number;
  readonly current: number;
}

/** Heat in the regulator in W: (input - output) × current. Refuses an input below the output. */
export function dissipation(given: DissipationInput): Result {
  const { input, output, current } = given;
  const across = Math.abs(input) - Math.abs(output);
  return (
    refused(
      finite("input voltage", input, "V"),
      finite("output voltage", output, "V"),
      notNegative("load current", current, "A"),
      apart(input, output),
      across < 0
        ? `The input (${formatValue(input, "V")}) is below the output (${formatValue(output, "V")}): a linear regulator cannot do that.`
        : undefined,
    ) ??
    computed(
      across * current,
      "W",
      `(${formatValue(Math.abs(input), "V")} - ${formatValue(Math.abs(output), "V")}) × ${formatValue(current, "A")}`,
      POWER,
    )
  );
}

/** The heat against a limit in W that the caller names with its source (package and heat sink decide it). */
export function judgeDissipation(
  given: DissipationInput & { readonly limit: number; readonly limitSource: string },
): Result<Assessment & { readonly power: Computed }> {
  const power = refused(positive("dissipation limit", given.limit, "W")) ?? dissipation(given);
  if (!power.ok) return power;
  const found = compareToLimits(power.value, { high: given.limit, unit: "W" });
  const { verdict, side } = found;
  const fact = `The regulator turns ${formatValue(power.value, "W")} into heat; the limit is ${formatValue(given.limit, "W")}.`;
  const says: Saying =
    verdict === "within-limits"
      ? { fact }
      : {
          fact,
          cause: "It will shut down or fail.",
          step: "Look for an overload, too high an input, or a loose heat sink.",
        };
  return {
    ok: true,
    verdict,
    side,
    says,
    formula: `${power.formula}; ${comparisonText(found, "arithmetic")}`,
    source: given.limitSource,
    power,
  };
}
