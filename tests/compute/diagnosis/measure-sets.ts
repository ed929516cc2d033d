import { hittingSets } from "../../../server/src/compute/diagnosis/hitting-sets";
import { random } from "./random";

/** Conflicts of a board of 300 parts and 600 nets: 20 of 3 to 14 parts and a track, most holding one common fault. */
export function boardConflicts(seed: number): string[][] {
  const rng = random(seed);
  const pick = (most: number) => Math.floor(rng() * most);
  return Array.from({ length: 20 }, () => [
    ...Array.from({ length: 3 + pick(12) }, () => `U${pick(300)}`),
    `track N${pick(600)}`,
    ...(rng() < 0.8 ? ["U300"] : []),
  ]);
}

/** Milliseconds of processor time that listing their minimal hitting sets takes; the first run warms up. */
export function boardsWorth(runs = 40): {
  readonly runs: number;
  readonly median: number;
  readonly worst: number;
} {
  hittingSets(boardConflicts(runs));
  const times = Array.from({ length: runs }, (_, seed) => {
    const conflicts = boardConflicts(seed);
    const start = process.cpuUsage();
    hittingSets(conflicts);
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1000;
  }).sort((a, b) => a - b);
  return { runs, median: times[runs >> 1] ?? 0, worst: times.at(-1) ?? 0 };
}
