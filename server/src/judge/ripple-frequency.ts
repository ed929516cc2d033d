// The frequency of a ripple: a full-wave rectifier leaves twice the mains frequency, and half of that is one leg open.

import { defined } from "../base/defined";
import type { Rail } from "../knowledge/types";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import { sourcesOf } from "../text/saying";
import { amountOf } from "./board-parts";
import { besides, single } from "./measured";
import type { Judgement } from "./types";

const CODE = "rail-out-of-tolerance";
const PRACTICE = "common practice, no source";
/** Hertz, of the mains of any country. */
const MAINS = [50, 60];
/** How far an oscilloscope's reading of it may be off: common practice, no source. */
const OFF = 0.06;

/** In the cell behind the voltage ("1.2 V 60 Hz"), in a column of its own or in the note. */
function frequencyOf(reading: Reading): number | undefined {
  const typed = /(\d{1,4}(?:[.,]\d+)?)\s*Hz\b/i;
  const inCell = typed.exec(reading.value.typed)?.[1];
  if (inCell !== undefined) return Number(inCell.replace(",", "."));
  const beside = reading.measure === "frequency" ? reading : besides(reading, "frequency");
  const column = beside && single(beside.value);
  if (column !== undefined) return column;
  const noted = typed.exec(reading.subject.note?.text ?? "")?.[1];
  return noted === undefined ? undefined : Number(noted.replace(",", "."));
}

/** Whether the frequency beside a ripple is that of the mains, on a rail that has a full-wave rectifier or may have. */
export function isAtMains(reading: Reading, rail: Rail): boolean {
  const frequency = frequencyOf(reading);
  return frequency !== undefined && rail.rectifier !== "half-wave" && mainsOf(frequency, rail) !== undefined;
}

function mainsOf(frequency: number, rail: Rail): number | undefined {
  const known = amountOf(rail.mains, "frequency");
  return (known === undefined ? MAINS : [known]).find((hertz) => Math.abs(frequency - hertz) <= OFF * hertz);
}

/** The same judgement where the frequency is not told, is another, or the rail is known to be half-wave rectified. */
export function withFrequency(base: Judgement, rail: Rail): Judgement {
  const { reading } = base;
  const frequency = frequencyOf(reading);
  if (frequency === undefined || rail.rectifier === "half-wave") return base;
  const mains = mainsOf(frequency, rail);
  if (mains === undefined) return base;
  const isSure = rail.rectifier === "full-wave";
  // So little is hum that the probe picks up; what it comes from shows when it is more.
  if (base.verdict === "within-limits" && !isSure) return base;
  const of = reading.measure === "frequency" ? `${rail.name} ripple is at` : `${rail.name} ripple reads`;
  const unless = isSure ? "" : ", unless this rail is half-wave rectified";
  return defined({
    ...base,
    verdict: base.verdict === "within-limits" ? ("suspect" as const) : ("out-of-limits" as const),
    side: base.verdict === "out-of-limits" ? base.side : ("low" as const),
    code: CODE,
    reference:
      base.reference ??
      ({
        kind: "physics",
        of: "the frequency that a full-wave rectifier leaves",
        low: 2 * mains,
        unit: "Hz",
        source: PRACTICE,
      } as const),
    formula: [base.formula, `${formatValue(frequency, "Hz")} = mains, not ${formatValue(2 * mains, "Hz")}`]
      .filter(Boolean)
      .join("; "),
    says: {
      fact: `${of} ${reading.value.typed}, at ${formatValue(mains, "Hz")}; a full-wave rectifier leaves ${formatValue(2 * mains, "Hz")}.`,
      cause: `One leg of the rectifier or half the winding is open${unless}.`,
      step: "Read its diodes and both halves of the winding.",
      more: base.says.more,
      source: sourcesOf(base.says.source, PRACTICE),
    },
  });
}
