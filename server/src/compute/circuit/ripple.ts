// Ripple on a reservoir capacitor. The straight-line rule takes the capacitor as feeding the load for the whole
// time between two charging peaks, which is longer than it does: the rule gives an upper bound of the ripple,
// and so the capacitance that a measured ripple implies is an upper bound too.

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

export type Rectifier = "full-wave" | "half-wave";

const SOURCE =
  "charge = capacitance × voltage, the capacitor feeding the load for the whole period (an upper bound)";

/** What draws on a reservoir capacitor and how often it is charged. */
export interface RippleInput {
  /** Load current in A, zero or more. */
  readonly current: number;
  /** Mains frequency in Hz, not the ripple's. */
  readonly frequency: number;
  readonly rectifier: Rectifier;
}

const pulses = (rectifier: Rectifier): number => (rectifier === "full-wave" ? 2 : 1);

const divisor = (input: RippleInput): string =>
  `${input.rectifier === "full-wave" ? "2 × " : ""}${formatValue(input.frequency, "Hz")}`;

/**
 * The most ripple there can be, peak to peak in V: I/(2fC) full wave, I/(fC) half wave, `capacitance` in F.
 * The capacitor's series resistance comes on top. Refuses a capacitance or frequency of zero or below.
 */
export function rippleBound(input: RippleInput & { readonly capacitance: number }): Result {
  const { current, frequency, capacitance, rectifier } = input;
  return (
    refused(
      notNegative("load current", current, "A"),
      positive("mains frequency", frequency, "Hz"),
      positive("capacitance", capacitance, "F"),
    ) ??
    computed(
      current / (pulses(rectifier) * frequency * capacitance),
      "V",
      `${formatValue(current, "A")} / (${divisor(input)} × ${formatValue(capacitance, "F")})`,
      SOURCE,
    )
  );
}

/**
 * The most capacitance, in F, that leaves the measured `ripple` (V peak to peak) at this load. Refuses a ripple
 * of zero, from which nothing follows.
 */
export function impliedCapacitance(input: RippleInput & { readonly ripple: number }): Result {
  const { current, frequency, ripple, rectifier } = input;
  return (
    refused(
      positive("load current", current, "A"),
      positive("mains frequency", frequency, "Hz"),
      positive("ripple", ripple, "V"),
    ) ??
    computed(
      current / (pulses(rectifier) * frequency * ripple),
      "F",
      `${formatValue(current, "A")} / (${divisor(input)} × ${formatValue(ripple, "V")})`,
      SOURCE,
    )
  );
}

export interface ReservoirInput extends RippleInput {
  /** Measured ripple in V peak to peak, with the half-width of its uncertainty in V. */
  readonly ripple: number;
  readonly uncertainty?: number;
  /** Marked capacitance in F and how far below it the part may lie, as a share (0.2 for 20 %). */
  readonly nominal: number;
  readonly tolerance: number;
}

/**
 * A measured ripple against the most that the marked capacitor, at its lower tolerance, can leave. More
 * disproves the capacitor, its joints or half of the bridge; less leaves all of them open to doubt elsewhere.
 */
export function judgeReservoir(input: ReservoirInput): Result<Assessment & { readonly bound: Computed }> {
  const { ripple, nominal, tolerance, uncertainty = 0 } = input;
  const bad = refused(
    finite("ripple", ripple, "V"),
    notNegative("ripple", ripple, "V"),
    notNegative("uncertainty", uncertainty, "V"),
    positive("marked capacitance", nominal, "F"),
    share("capacitor's lower tolerance", tolerance),
  );
  const bound = bad ?? rippleBound({ ...input, capacitance: nominal * (1 - tolerance) });
  if (!bound.ok) return bound;
  const found = compareToLimits(ripple, { high: bound.value, unit: "V" }, { uncertainty });
  const { verdict, side } = found;
  const least = formatValue(nominal * (1 - tolerance), "F");
  const fact = `The ripple is ${formatValue(ripple, "V")}; ${least} leaves at most ${formatValue(bound.value, "V")} at ${formatValue(input.current, "A")}.`;
  const implied = impliedCapacitance(input);
  const half = input.rectifier === "full-wave" ? ", or half of the bridge is open" : "";
  const says: Saying =
    verdict === "within-limits"
      ? { fact, cause: "The capacitor is not disproved." }
      : verdict === "suspect"
        ? { fact, cause: "Too close to tell.", step: "Read it again on a finer range." }
        : {
            fact,
            cause: `The capacitor has lost capacitance or has a poor joint${half}.`,
            step: "Check the load current first.",
            more: implied.ok
              ? `This ripple leaves it at most ${formatValue(implied.value, "F")}.`
              : undefined,
          };
  const formula = `${bound.formula}; ${comparisonText(found, "arithmetic")}`;
  return { ok: true, verdict, side, says, formula, source: SOURCE, bound };
}
