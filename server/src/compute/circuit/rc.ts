// One resistor and one capacitor, which is what most reset circuits of the time are.

import { formatValue } from "../../quantity/format-value";
import type { Saying } from "../../text/saying";
import { compareToLimits } from "../limits/compare";
import { comparisonText } from "../limits/text";
import {
  type Computed,
  computed,
  finite,
  notNegative,
  positive,
  type Result,
  refused,
  share,
} from "../result";
import type { Assessment } from "../verdict";

const SOURCE = "exponential charging of an ideal capacitor through a resistor, t = RC ln(...)";

export interface RcInput {
  /** Ohms and farads, both above zero. */
  readonly resistance: number;
  readonly capacitance: number;
  /** Voltage at the start, and the voltage it is heading for, in V. */
  readonly from: number;
  readonly to: number;
}

const parts = ({ resistance, capacitance, from, to }: RcInput): readonly (string | undefined)[] => [
  positive("resistance", resistance, "ohm"),
  positive("capacitance", capacitance, "F"),
  finite("starting voltage", from, "V"),
  finite("final voltage", to, "V"),
];

/**
 * Time in s until the capacitor, charging or discharging, crosses `threshold` in V. Refuses a threshold that the
 * voltage never reaches: outside the swing, or the final voltage itself.
 */
export function rcTime(input: RcInput & { readonly threshold: number }): Result {
  const { resistance, capacitance, from, to, threshold } = input;
  const rest = (to - threshold) / (to - from);
  const bad = refused(
    ...parts(input),
    finite("threshold", threshold, "V"),
    from === to ? `Start and end are both ${formatValue(from, "V")}: nothing charges.` : undefined,
    rest > 0 && rest <= 1
      ? undefined
      : `The voltage goes from ${formatValue(from, "V")} towards ${formatValue(to, "V")} and never crosses ${formatValue(threshold, "V")}.`,
  );
  if (bad) return bad;
  return computed(
    -resistance * capacitance * Math.log(rest),
    "s",
    `${formatValue(resistance, "ohm")} × ${formatValue(capacitance, "F")} × ln((${formatValue(to, "V")} - ${formatValue(from, "V")}) / (${formatValue(to, "V")} - ${formatValue(threshold, "V")}))`,
    SOURCE,
  );
}

/** Voltage in V after `time` in s, zero or more. */
export function rcVoltage(input: RcInput & { readonly time: number }): Result {
  const { resistance, capacitance, from, to, time } = input;
  return (
    refused(...parts(input), notNegative("time", time, "s")) ??
    computed(
      to + (from - to) * Math.exp(-time / (resistance * capacitance)),
      "V",
      `${formatValue(to, "V")} + (${formatValue(from, "V")} - ${formatValue(to, "V")}) × e^(-${formatValue(time, "s")} / (${formatValue(resistance, "ohm")} × ${formatValue(capacitance, "F")}))`,
      SOURCE,
    )
  );
}

export interface ResetInput {
  readonly resistance: number;
  readonly capacitance: number;
  /** The rail the capacitor charges from, and the level at which reset lets go, in V. */
  readonly supply: number;
  readonly threshold: number;
  /** Shares by which the parts may stray either way: 0.05 for 5 %. Zero where nothing is said. */
  readonly resistorTolerance?: number;
  readonly capacitorTolerance?: number;
}

export interface ResetDelay extends Computed {
  /** Shortest and longest delay in s that the tolerances allow. */
  readonly shortest: number;
  readonly longest: number;
}

/** How long reset is held after the rail steps up, in s, with the window that the parts' tolerances leave. */
export function resetDelay(input: ResetInput): Result<ResetDelay> {
  const { resistance, capacitance, supply, threshold, resistorTolerance = 0, capacitorTolerance = 0 } = input;
  const bad = refused(
    share("resistor's tolerance", resistorTolerance),
    share("capacitor's tolerance", capacitorTolerance),
  );
  const nominal = bad ?? rcTime({ resistance, capacitance, from: 0, to: supply, threshold });
  if (!nominal.ok) return nominal;
  return {
    ...nominal,
    shortest: nominal.value * (1 - resistorTolerance) * (1 - capacitorTolerance),
    longest: nominal.value * (1 + resistorTolerance) * (1 + capacitorTolerance),
  };
}

/** A measured reset delay (s) against the RC's window. A leaky capacitor or a loaded node lengthens it. */
export function judgeResetDelay(
  input: ResetInput & {
    readonly measured: number;
    readonly uncertainty?: number;
    /** What gives the window, with its verb: "R5 and C1 give". */
    readonly whose?: string;
  },
): Result<Assessment & { readonly expected: ResetDelay }> {
  const { measured, uncertainty = 0, whose = "the resistor and capacitor give" } = input;
  const bad = refused(
    measured === Number.POSITIVE_INFINITY ? undefined : notNegative("measured delay", measured, "s"),
    notNegative("uncertainty", uncertainty, "s"),
  );
  const expected = bad ?? resetDelay(input);
  if (!expected.ok) return expected;
  const limits = { low: expected.shortest, high: expected.longest, unit: "s" };
  const found = compareToLimits(measured, limits, { uncertainty });
  const { verdict, side } = found;
  const window = `${whose} ${formatValue(expected.shortest, "s")} to ${formatValue(expected.longest, "s")}`;
  const read =
    measured === Number.POSITIVE_INFINITY
      ? "Reset never releases"
      : `Reset releases after ${formatValue(measured, "s")}`;
  const fact = `${read}; ${window}.`;
  const says: Saying =
    verdict === "within-limits"
      ? { fact }
      : verdict === "suspect"
        ? { fact, cause: "Too close to tell.", step: "Measure again with a finer time base." }
        : side === "low"
          ? {
              fact,
              cause: "The capacitor is open or has lost capacitance, or something else pulls the line.",
              step: "Check the capacitor first.",
            }
          : {
              fact,
              cause: "The capacitor leaks, the resistor has risen, or another part holds the line.",
              step: "Check the capacitor, then the resistor, then what else is on the line.",
            };
  return {
    ok: true,
    verdict,
    side,
    says,
    formula: `${expected.formula}; ${comparisonText(found, "arithmetic")}`,
    source: SOURCE,
    expected,
  };
}
