// A reset delay against the resistor and capacitor that set it.

import { judgeResetDelay } from "../compute/circuit/rc";
import type { Reset } from "../knowledge/types";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import { amountOf, isOnNetOf, linkTo, railNominal, tolerances, valueAt } from "./board-parts";
import type { LogContext } from "./context";
import { judgeExpected } from "./expected";
import { judgementFrom, unjudged } from "./judgement-from";
import { single } from "./measured";
import { findRail } from "./rail-name";
import type { TestPoint } from "./test-point";
import type { Judgement, Reference } from "./types";
import { uncertaintyOf } from "./uncertainty";

const CODE = "outside-expected";
const SOURCE = "an ideal capacitor charging through a resistor";

/** Undefined where the board file names no reset circuit here, or what was typed is not one time. */
export function judgeReset(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  if (reading.measure !== "delay") return undefined;
  const expected = judgeExpected(reading, place, ctx);
  if (expected.verdict !== "unjudged") return expected;
  const reset = ctx.board?.value.resets.find((at) => isOnNetOf(place, reading.subject.signal?.text, at, ctx));
  const measured = single(reading.value);
  return reset === undefined || measured === undefined
    ? undefined
    : fromParts(reading, place, reset, measured, ctx);
}

function fromParts(
  reading: Reading,
  place: TestPoint | undefined,
  reset: Reset,
  measured: number,
  ctx: LogContext,
): Judgement {
  const resistor = valueAt(reset.resistor, "resistance", ctx);
  const capacitor = valueAt(reset.capacitor, "capacitance", ctx);
  const supply = railNominal(ctx.board && findRail(ctx.board.value, reset.rail));
  const threshold = amountOf(reset.threshold, "voltage");
  if (!resistor.ok) return unjudged(reading, place, `${reading.value.typed} was read. ${resistor.reason}`);
  if (!capacitor.ok) return unjudged(reading, place, `${reading.value.typed} was read. ${capacitor.reason}`);
  if (supply === undefined || threshold === undefined) {
    const why = "The board file's reset here has no rail and threshold that can be read.";
    return unjudged(reading, place, `${reading.value.typed} was read. ${why}`);
  }
  // A delay is read off an oscilloscope, which no meter of the shop file stands for: only what was typed counts.
  const uncertainty = uncertaintyOf(reading.value, undefined, undefined);
  const ruling = judgeResetDelay({
    resistance: resistor.nominal,
    capacitance: capacitor.nominal,
    supply,
    threshold,
    resistorTolerance: resistor.tolerance,
    capacitorTolerance: capacitor.tolerance,
    measured,
    uncertainty,
    whose: `${resistor.ref} and ${capacitor.ref} give`,
  });
  if (!ruling.ok) return unjudged(reading, place, ruling.reason);
  const { shortest, longest } = ruling.expected;
  const reference: Reference = {
    kind: "board",
    of: `the delay that ${resistor.ref} and ${capacitor.ref} give`,
    low: shortest,
    high: longest,
    unit: "s",
    source: SOURCE,
    ...linkTo(["resets", reset.index], ctx),
  };
  return judgementFrom(reading, place, { ...ruling, source: SOURCE }, CODE, {
    uncertainty,
    reference,
    note: `${tolerances(resistor, capacitor)}; releases at ${formatValue(threshold, "V")}: ${reset.source ?? "the board file"}`,
  });
}
