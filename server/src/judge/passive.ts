// Resistors and capacitors read in place against the value the board file gives them.

import {
  type InCircuitRuling,
  judgeCapacitanceInCircuit,
  judgeResistanceInCircuit,
} from "../compute/circuit/in-circuit";
import { compare } from "../compute/limits/compare";
import { comparisonText } from "../compute/limits/text";
import type { Outcome } from "../compute/outcome";
import { type PartValue, partValue, readValue } from "../compute/part-value";
import type { Reading } from "../log/model";
import { say } from "../quantity/say";
import type { Dimension } from "../quantity/units";
import { extentOf } from "./compare";
import type { LogContext } from "./context";
import { judgeEsrOf, judgeLeakage } from "./electrolytic";
import { judgeExpected } from "./expected";
import type { Place } from "./place";
import { ruled } from "./ruled";
import type { Judgement } from "./types";
import { uncertaintyOf } from "./uncertainty";

const CODE = "passive-out-of-tolerance";

/** In place, paths beside a part hide one side of its tolerance; with an end lifted both sides count. */
export function judgePassive(
  reading: Reading,
  place: Place | undefined,
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
  const value = nominalOf(reading, place, dimension);
  if (!value) return undefined;
  const fn = dimension === "resistance" ? "ohms" : "capacitance";
  const input = { ...value, reading: extent.low, uncertainty: uncertaintyOf(reading.value, ctx.meter, fn) };
  const ruling = isLifted(reading)
    ? outOfCircuit(input, dimension === "resistance" ? "ohm" : "F", value)
    : dimension === "resistance"
      ? judgeResistanceInCircuit(input)
      : judgeCapacitanceInCircuit(input);
  return ruled(reading, place, ruling, CODE, { uncertainty: input.uncertainty, note: value.toleranceTold });
}

/** What the row itself says it should be, else the board file's value. */
export function nominalOf(
  reading: Reading,
  place: Place | undefined,
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
): Outcome<InCircuitRuling> {
  const low = value.nominal * (1 - value.tolerance);
  const high = value.nominal * (1 + value.tolerance);
  const found = compare(
    input.reading,
    { low, high, unit },
    // Where even the marked value would straddle its own tolerance, lying near a limit says nothing.
    { uncertainty: input.uncertainty, guardInside: input.uncertainty < value.nominal * value.tolerance },
  );
  const { verdict, side } = found;
  const fact = `${say(value.nominal, unit)} out of circuit reads ${say(input.reading, unit)}; ${say(low, unit)} to ${say(high, unit)} is allowed.`;
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
