import { defined } from "../../base/defined";
import { modifiedZ } from "../../compute/measurement/robust";
import {
  type ToleranceDemand,
  toleranceInterval,
  twoSidedFactor,
} from "../../compute/measurement/tolerance-interval";
import { err, type Ok, ok, type Result } from "../../compute/result";
import { type Baseline, type BaselineReading, CONFIDENCE, COVERAGE, FEWEST_BOARDS } from "./types";

export type BaselineLimits = Omit<Baseline, "revision" | "source">;

const DEMAND: ToleranceDemand = { coverage: COVERAGE, confidence: CONFIDENCE };

/**
 * What the digits typed leave open, as a standard deviation: d / sqrt(12) of a digit d (JCGM 100, 4.3.7, from
 * memory), root of the mean square over the readings, so that one coarse reading does not speak for all.
 */
const rounding = (readings: readonly BaselineReading[]): number =>
  Math.sqrt(readings.reduce((sum, { resolution }) => sum + resolution ** 2, 0) / readings.length / 12);

/**
 * Limits from one reading a board. Outliers by modified z-score are taken out once, a place that read open among
 * them; of the rest the mean and standard deviation make a two-sided normal tolerance interval. It is exact for
 * normal readings of which nothing was taken out; what was taken out makes it a little too narrow, the rounding of
 * the digits a little too wide. Refuses fewer than five boards, before and after, with a message.
 */
export function baselineLimits(
  readings: readonly BaselineReading[],
  demand = DEMAND,
): Result<Ok<BaselineLimits>> {
  if (readings.length < FEWEST_BOARDS) {
    return err(`${readings.length} boards were read here, and limits take ${FEWEST_BOARDS}.`);
  }
  const least = rounding(readings);
  const odd = modifiedZ(
    readings.map(({ value }) => value),
    { leastSpread: least },
  );
  if (!odd.ok) return odd;
  const out = new Set(odd.value.outliers);
  const jobs = readings.filter((_, i) => !out.has(i));
  const n = jobs.length;
  if (n < FEWEST_BOARDS) {
    return err(`${n} boards agree here, and limits take ${FEWEST_BOARDS}.`);
  }
  const factor = factorFor(n, demand);
  if (!factor.ok) return factor;
  const values = jobs.map(({ value }) => value);
  const centre = values.reduce((sum, value) => sum + value, 0) / n;
  const own = Math.sqrt(values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / (n - 1));
  const spread = Math.max(own, least);
  const { low, high } = toleranceInterval(centre, spread, factor.value);
  return ok(
    defined({
      n,
      centre,
      spread,
      factor: factor.value,
      method: "two-sided normal tolerance interval",
      low: low < 0 && values.every((value) => value >= 0) ? undefined : low,
      high: high > 0 && values.every((value) => value <= 0) ? undefined : high,
      // A short or an open circuit was typed without one.
      unit: jobs.find(({ unit }) => unit !== "")?.unit ?? "",
      jobs,
      leftOut: readings.filter((_, i) => out.has(i)),
    }),
  );
}

const factors = new Map<string, Result<Ok<number>>>();

function factorFor(n: number, demand: ToleranceDemand): Result<Ok<number>> {
  const key = `${n} ${demand.coverage} ${demand.confidence}`;
  let factor = factors.get(key);
  if (!factor) {
    factor = twoSidedFactor(n, demand);
    factors.set(key, factor);
  }
  return factor;
}
