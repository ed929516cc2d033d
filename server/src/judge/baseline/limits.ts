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
function rounding(readings: readonly BaselineReading[]): number {
  let sum = 0;
  for (const { resolution } of readings) sum += resolution ** 2;
  return Math.sqrt(sum / readings.length / 12);
}

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
  const [jobs, leftOut] = parted(readings, odd.value.outliers);
  const n = jobs.length;
  if (n < FEWEST_BOARDS) {
    return err(`${n} boards agree here, and limits take ${FEWEST_BOARDS}.`);
  }
  const factor = factorFor(n, demand);
  if (!factor.ok) return factor;
  let sum = 0;
  let isBelow = false;
  let isAbove = false;
  for (const { value } of jobs) {
    sum += value;
    if (value < 0) isBelow = true;
    else if (value > 0) isAbove = true;
  }
  const centre = sum / n;
  let squares = 0;
  for (const { value } of jobs) squares += (value - centre) ** 2;
  const spread = Math.max(Math.sqrt(squares / (n - 1)), least);
  const { low, high } = toleranceInterval(centre, spread, factor.value);
  return ok(
    defined({
      n,
      centre,
      spread,
      factor: factor.value,
      method: "two-sided normal tolerance interval",
      low: low < 0 && !isBelow ? undefined : low,
      high: high > 0 && !isAbove ? undefined : high,
      // A short or an open circuit was typed without one.
      unit: jobs.find(({ unit }) => unit !== "")?.unit ?? "",
      jobs,
      leftOut,
    }),
  );
}

/** Those that agree and those that do not, by the places of the latter, ascending. */
function parted(
  readings: readonly BaselineReading[],
  odd: readonly number[],
): [jobs: readonly BaselineReading[], leftOut: readonly BaselineReading[]] {
  if (odd.length === 0) return [readings, []];
  const jobs: BaselineReading[] = [];
  let next = 0;
  for (let i = 0; i < readings.length; i++) {
    if (odd[next] === i) next++;
    else jobs.push(readings[i]!);
  }
  return [jobs, odd.map((i) => readings[i]!)];
}

/** By their number, of those that this program asks for. */
const factors: (Result<Ok<number>> | undefined)[] = [];

function factorFor(n: number, demand: ToleranceDemand): Result<Ok<number>> {
  if (demand !== DEMAND) return twoSidedFactor(n, demand);
  factors[n] ??= twoSidedFactor(n, demand);
  return factors[n];
}
