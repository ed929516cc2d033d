// Parts read in place have the rest of the board beside them. Paths beside a resistor can only lower what the meter
// shows, and capacitors beside a capacitor can only raise it: so one side of the tolerance disproves the part and
// the other side says nothing.
import { formatValue } from "../../quantity/format-value";
import { compareToLimits, type How } from "../limits/compare";
import { comparisonText } from "../limits/text";
import { notNegative, positive, type Result, readable, refused, share } from "../result";
import type { Assessment } from "../verdict";
import { parallelResistance } from "./parallel";

/** Which of the readings' three regions it fell in. */
export type InCircuit = "disproved" | "not-disproved" | "inconclusive";

/** The verdict on a part read in place; a part within its tolerance is not disproved, and no more. */
export interface InCircuitRuling extends Assessment {
  readonly conclusion: InCircuit;
}

export interface InCircuitInput {
  /** What the meter shows, SI base unit, zero or more; infinity for an open resistor. */
  readonly reading: number;
  /** Half-width of its uncertainty, same unit. */
  readonly uncertainty?: number;
  readonly nominal: number;
  /** As a share: 0.05 for 5 %. */
  readonly tolerance: number;
}

const common = (unit: string, { nominal, tolerance, uncertainty = 0 }: InCircuitInput) => [
  positive("marked value", nominal, unit),
  share("tolerance", tolerance),
  notNegative("uncertainty", uncertainty, unit),
];

/** Where even the marked value would straddle its own tolerance, lying near a limit says nothing. */
const guarded = (halfWidth: number, uncertainty: number): How => ({
  uncertainty,
  guardInside: uncertainty < halfWidth,
});

/**
 * A resistor read in place. Above its upper tolerance: open or drifted, whatever else is on the board. Below its
 * lower tolerance: inconclusive. `beside` are known resistors (ohm, at their nominal values) straight across it,
 * which lower the most it may read.
 */
export function judgeResistanceInCircuit(
  input: InCircuitInput & { readonly beside?: readonly number[] },
): Result<InCircuitRuling> {
  const { reading, uncertainty = 0, nominal, tolerance, beside = [] } = input;
  const bad = refused(readable("resistance", reading, "ohm"), ...common("ohm", input));
  const together = bad ?? parallelResistance([nominal, ...beside]);
  if (!together.ok) return together;
  // The neighbours may be as far above their marking as the part itself: no narrower claim is sound.
  const most = together.value * (1 + tolerance);
  const least = together.value * (1 - tolerance);
  const above = compareToLimits(
    reading,
    { high: most, unit: "ohm" },
    guarded(together.value * tolerance, uncertainty),
  );
  const source = "parallel paths can only lower a resistance";
  const what = beside.length > 0 ? `${together.formula} in place` : `${formatValue(nominal, "ohm")} in place`;
  const base = { ok: true as const, source };
  if (above.verdict === "out-of-limits") {
    const read = reading === Number.POSITIVE_INFINITY ? "reads open" : `reads ${formatValue(reading, "ohm")}`;
    return {
      ...base,
      conclusion: "disproved",
      verdict: "out-of-limits",
      side: above.side,
      formula: comparisonText(above, "arithmetic"),
      says: {
        fact: `${what} ${read}; it may read at most ${formatValue(most, "ohm")}.`,
        cause: `${beside.length > 0 ? "It or one of those beside it" : "It"} is open, has drifted high or has a poor joint.`,
        step: "Swap the leads and read again first: charge in a capacitor can mislead the meter.",
      },
    };
  }
  if (above.verdict === "suspect") {
    return {
      ...base,
      conclusion: "inconclusive",
      verdict: "suspect",
      side: above.side,
      formula: comparisonText(above, "arithmetic"),
      says: {
        fact: `${what} reads ${formatValue(reading, "ohm")}; it may read at most ${formatValue(most, "ohm")}.`,
        cause: "Too close to tell.",
        step: "Lift one end and read it again.",
      },
    };
  }
  const plain = compareToLimits(reading, { low: least, high: most, unit: "ohm" });
  if (compareToLimits(reading, { low: least, unit: "ohm" }, { uncertainty }).verdict === "out-of-limits") {
    return {
      ...base,
      conclusion: "inconclusive",
      verdict: "unjudged",
      formula: comparisonText(plain, "arithmetic"),
      says: {
        fact: `${what} reads ${formatValue(reading, "ohm")}, below its tolerance.`,
        cause: "Other paths on the board may lower it, so this says nothing about the part.",
        step: "Lift one end to judge it.",
      },
    };
  }
  return {
    ...base,
    conclusion: "not-disproved",
    verdict: "within-limits",
    formula: comparisonText(plain, "arithmetic"),
    saysUnproven: true,
    says: {
      fact: `${what} reads ${formatValue(reading, "ohm")}, within its tolerance.`,
      cause: "Not disproved: a part that drifted high can hide behind another path.",
    },
  };
}

/**
 * A capacitor read in place, F. Below its lower tolerance: open or dried out, whatever stands beside it. Above its
 * upper tolerance: inconclusive, since capacitors on the same net add up and leakage reads as size.
 */
export function judgeCapacitanceInCircuit(input: InCircuitInput): Result<InCircuitRuling> {
  const { reading, uncertainty = 0, nominal, tolerance } = input;
  const bad = refused(notNegative("capacitance", reading, "F"), ...common("F", input));
  if (bad) return bad;
  const least = nominal * (1 - tolerance);
  const most = nominal * (1 + tolerance);
  const below = compareToLimits(
    reading,
    { low: least, unit: "F" },
    guarded(nominal * tolerance, uncertainty),
  );
  const base = { ok: true as const, source: "parallel capacitances add" };
  const what = `${formatValue(nominal, "F")} in place reads ${formatValue(reading, "F")}`;
  if (below.verdict === "out-of-limits") {
    return {
      ...base,
      conclusion: "disproved",
      verdict: "out-of-limits",
      side: below.side,
      formula: comparisonText(below, "arithmetic"),
      says: {
        fact: `${what}; it must have at least ${formatValue(least, "F")}.`,
        cause: "It is open or dried out, or has a poor joint.",
        step: "Check its joints, then replace it the right way round.",
      },
    };
  }
  if (below.verdict === "suspect") {
    return {
      ...base,
      conclusion: "inconclusive",
      verdict: "suspect",
      side: below.side,
      formula: comparisonText(below, "arithmetic"),
      says: {
        fact: `${what}; it must have at least ${formatValue(least, "F")}.`,
        cause: "Too close to tell.",
        step: "Lift one end and read it again.",
      },
    };
  }
  const plain = compareToLimits(reading, { low: least, high: most, unit: "F" });
  if (compareToLimits(reading, { high: most, unit: "F" }, { uncertainty }).verdict === "out-of-limits") {
    return {
      ...base,
      conclusion: "inconclusive",
      verdict: "unjudged",
      formula: comparisonText(plain, "arithmetic"),
      says: {
        fact: `${what}, above its tolerance.`,
        cause: "Others on the same net add to it, and leakage reads as size.",
        step: "Lift one end to judge it.",
      },
    };
  }
  return {
    ...base,
    conclusion: "not-disproved",
    verdict: "within-limits",
    formula: comparisonText(plain, "arithmetic"),
    saysUnproven: true,
    says: {
      fact: `${what}, within its tolerance.`,
      cause: "Not disproved: a lost part can hide behind another on the same net.",
    },
  };
}
