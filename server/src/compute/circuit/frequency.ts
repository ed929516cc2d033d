import { formatValue } from "../../quantity/format-value";
import type { Saying } from "../../text/saying";
import { compareToLimits } from "../limits/compare";
import { type Computed, notNegative, positive, type Result, refused } from "../result";
import type { Assessment } from "../verdict";

const SOURCE = "definition: (measured - nominal) / nominal";

/** Deviation of a clock as a ratio (1e-6 is one ppm); the formula is written in ppm. Frequencies in Hz. */
export function deviation(measured: number, nominal: number): Result {
  const bad = refused(
    notNegative("measured frequency", measured, "Hz"),
    positive("nominal frequency", nominal, "Hz"),
  );
  if (bad) return bad;
  const value = (measured - nominal) / nominal;
  if (!Number.isFinite(value)) return { ok: false, reason: "The deviation is beyond what can be computed." };
  return {
    ok: true,
    value,
    unit: "",
    formula: `(${hertz(measured)} - ${hertz(nominal)}) / ${hertz(nominal)} = ${formatValue(value, "ppm")}`,
    source: SOURCE,
  };
}

/** Frequencies are told apart by their last digits, so more of them are written than of other values. */
const hertz = (value: number): string => `${Number(value.toPrecision(9))} Hz`;

export interface FrequencyInput {
  /** Hz. */
  readonly measured: number;
  readonly nominal: number;
  /** Half-width of the window as a ratio (100 ppm is 1e-4), and who says so. */
  readonly limit: number;
  readonly limitSource: string;
  /** Half-width of the counter's uncertainty in Hz. */
  readonly uncertainty?: number;
}

/** A clock against its window. */
export function judgeFrequency(input: FrequencyInput): Result<Assessment & { readonly deviation: Computed }> {
  const { measured, nominal, limit, uncertainty = 0 } = input;
  const found =
    refused(positive("limit", limit, "ppm"), notNegative("uncertainty", uncertainty, "Hz")) ??
    deviation(measured, nominal);
  if (!found.ok) return found;
  const limits = { low: -limit, high: limit, unit: "ppm" };
  const { verdict, side } = compareToLimits(found.value, limits, { uncertainty: uncertainty / nominal });
  const read =
    measured === 0
      ? "The clock does not run"
      : `The clock is ${formatValue(Math.abs(found.value), "ppm")} ${found.value < 0 ? "slow" : "fast"}`;
  const window = `${formatValue(limit, "ppm")} either way`;
  const fact = `${read}; ${window} is allowed.`;
  const says: Saying =
    measured === 0
      ? { fact: `${read}.`, step: "Check the supply of the oscillator, then the crystal and its joints." }
      : verdict === "within-limits"
        ? { fact: `${found.value === 0 ? "The clock is at its nominal frequency" : read}, within ${window}.` }
        : verdict === "suspect"
          ? { fact, cause: "Too close to tell with this counter.", step: "Count it over a longer gate." }
          : {
              fact,
              step: "Check the crystal, its capacitors and what else loads the oscillator.",
              more: "A ratio of 2 or 3 is a wrong crystal or overtone.",
            };
  const { formula } = found;
  return {
    ok: true,
    verdict,
    side,
    says,
    formula,
    source: input.limitSource,
    deviation: found,
  };
}
