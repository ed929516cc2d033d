import { diagnosisSteps } from "../../../server/src/compute/diagnosis";
import { nextReadingSteps } from "../../../server/src/compute/diagnosis/next-reading";
import { type Extent, LARGE, largeBoard, largeInput } from "./large-board";

const MOST_NODES = 1000;
const ROUNDS = 3;

/** Milliseconds of processor time so far: what else the machine does is not counted. */
function now(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/**
 * Milliseconds that a whole diagnosis of a large board takes with the advice on what to read next, the longest time
 * between two of its steps, and how its median compares to the reading of the board's file in the same run.
 */
export function largeDiagnosis(
  runs = 20,
  extent: Extent = LARGE,
): {
  readonly runs: number;
  readonly median: number;
  readonly worst: number;
  readonly ratio: number;
  readonly longestStep: number;
} {
  let longestStep = 0;
  const one = (seed: number, counts: boolean): number => {
    const input = largeInput(seed, extent);
    function* all() {
      const diagnosis = yield* diagnosisSteps(input, { maxNodes: MOST_NODES });
      if (diagnosis.ok) yield* nextReadingSteps(input, diagnosis);
    }
    // The best of some counts, of the whole and of each step: a busy machine only adds, and so does clearing away what was
    // left of the board's file. The same step does the same in each round.
    let best = Number.POSITIVE_INFINITY;
    const steps: number[] = [];
    for (let round = 0; round < ROUNDS; round += 1) {
      const start = now();
      let last = start;
      let step = 0;
      const ended = (): void => {
        const at = now();
        steps[step] = Math.min(steps[step] ?? Number.POSITIVE_INFINITY, at - last);
        last = at;
        step += 1;
      };
      for (const _ of all()) ended();
      ended();
      best = Math.min(best, now() - start);
    }
    if (counts) longestStep = Math.max(longestStep, ...steps);
    return best;
  };
  for (let seed = 0; seed < 5; seed += 1) one(1000 + seed, false);
  const times = Array.from({ length: runs }, (_, seed) => one(seed, true)).sort((a, b) => a - b);
  const readings = Array.from({ length: 5 }, (_, seed) => {
    const start = now();
    largeBoard(seed, extent);
    return now() - start;
  }).sort((a, b) => a - b);
  const median = times[runs >> 1] ?? 0;
  return { runs, median, worst: times.at(-1) ?? 0, ratio: median / (readings[2] ?? 1), longestStep };
}
