// Resistors and capacitors read in place against the value the board file gives them.

import {
  type InCircuitRuling,
  judgeCapacitanceInCircuit,
  judgeResistanceInCircuit,
} from "../compute/circuit/in-circuit";
import { compareToLimits } from "../compute/limits/compare";
import { comparisonText } from "../compute/limits/text";
import { type PartValue, partValue, readValue } from "../compute/part-value";
import type { Result } from "../compute/result";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import type { Dimension } from "../quantity/units";
import { extentOf } from "./compare";
import type { LogContext } from "./context";
import { judgeEsrOf, judgeLeakage } from "./electrolytic";
import { judgeExpected } from "./expected";
import { judgementFrom } from "./judgement-from";
import type { TestPoint } from "./test-point";
import type { Judgement } from "./types";
import { uncertaintyOf } from "./uncertainty";

const CODE = "passive-out-of-tolerance";

/** In place, paths beside a part hide one side of its tolerance; with an end lifted both sides count. */
export function judgePassive(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  const dimension = reading.spec.quantity as Dimension | undefined;
  if (reading.measure === "leakage") {
    const known = judgeExpected(reading, place, ctx);
    return known.verdict !== "unjudged" ? known : judgeLeakage(reading, place, ctx);
  }
  if (dimension !== "resistance" && dimension !== "capacitance") return undefined;
  const expected = judgeExpected(reading, place, ctx);
  if (expected.verdict !== "unjudged") return expected;
  const extent = extentOf(reading.value);
  if (reading.measure === "esr") return judgeEsrOf(reading, place, ctx);
  if (!extent || extent.low !== extent.high) return undefined;
  if (reading.subject.pin) return undefined;
  // Ohms are no value of a capacitor, which is marked with none.
  if (dimension === "resistance" && /^C\d/i.test(place?.part?.ref ?? "")) return undefined;
  const value = expectedPartValue(reading, place, dimension);
  if (!value) return undefined;
  const fn = dimension === "resistance" ? "ohms" : "capacitance";
  const input = { ...value, reading: extent.low, uncertainty: uncertaintyOf(reading.value, ctx.meter, fn) };
  const ruling = isLifted(reading)
    ? outOfCircuit(input, dimension === "resistance" ? "ohm" : "F", value)
    : dimension === "resistance"
      ? judgeResistanceInCircuit(input)
      : judgeCapacitanceInCircuit(input);
  return judgementFrom(reading, place, ruling, CODE, {
    uncertainty: input.uncertainty,
    note: value.toleranceTold,
  });
}

/** What the row itself says it should be, else the board file's value. */
export function expectedPartValue(
  reading: Reading,
  place: TestPoint | undefined,
  dimension: Dimension,
): PartValue | undefined {
  const typed = reading.subject.expected?.text;
  return (
    (typed === undefined ? undefined : readValue(typed, dimension, "this log")) ??
    partValue(place?.part, dimension)
  );
}

const isLifted = ({ subject }: Reading): boolean =>
  /\b(lifted|out of (the )?circuit|removed|off the board|desoldered)\b/i.test(subject.note?.text ?? "");

function outOfCircuit(
  input: { reading: number; uncertainty: number; nominal: number; tolerance: number },
  unit: string,
  value: PartValue,
): Result<InCircuitRuling> {
  const low = value.nominal * (1 - value.tolerance);
  const high = value.nominal * (1 + value.tolerance);
  const found = compareToLimits(
    input.reading,
    { low, high, unit },
    // Where even the marked value would straddle its own tolerance, lying near a limit says nothing.
    { uncertainty: input.uncertainty, guardInside: input.uncertainty < value.nominal * value.tolerance },
  );
  const { verdict, side } = found;
  const fact = `${formatValue(value.nominal, unit)} out of circuit reads ${formatValue(input.reading, unit)}; ${formatValue(low, unit)} to ${formatValue(high, unit)} is allowed.`;
  return {
    ok: true,
    conclusion: verdict === "out-of-limits" ? "disproved" : "not-disproved",
    verdict,
    side,
    formula: comparisonText(found, "arithmetic"),
    source: value.toleranceTold,
    says:
      verdict === "out-of-limits"
        ? { fact, cause: "It is out of tolerance.", step: "Replace it." }
        : verdict === "suspect"
          ? { fact, cause: "Too close to tell with this meter.", step: "Read it on a finer range." }
          : { fact },
  };
}
