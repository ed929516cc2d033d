// How well the diagnosis does on the simulated bench; both the tests and the figures printed come from here.
import { diagnose } from "../../../server/src/compute/diagnosis";
import type { DiagnosisFinding, WithinLimits } from "../../../server/src/compute/diagnosis/types";
import { deviceOf, regatta } from "./regatta";
import { type Bench, bench, type Read, type SimOptions } from "./simulator";

export const findingsOf = (symptoms: Bench["symptoms"], reads: readonly Read[]): DiagnosisFinding[] => [
  ...symptoms.map((symptom): DiagnosisFinding => ({ kind: "symptom", ...symptom })),
  ...reads.flatMap(({ ref, pin, verdict }): DiagnosisFinding[] =>
    verdict === "within" ? [] : [{ kind: "pin", ref, pin, verdict: "out-of-limits", direction: verdict }],
  ),
];

export const withinOf = (reads: readonly Read[]): WithinLimits[] =>
  reads.filter(({ verdict }) => verdict === "within").map(({ ref, pin }) => ({ ref, pin }));

/** Place of the likeliest faulty part in the ranking after the first readings, from 1; infinity where absent. */
export function rankOfTruth(options: SimOptions): number {
  const board = bench(regatta, options);
  const reads = board.firstReadings();
  const diagnosis = diagnose({
    board: regatta,
    deviceOf,
    findings: findingsOf(board.symptoms, reads),
    withinLimits: withinOf(reads),
  });
  if (!diagnosis.ok) throw new Error(diagnosis.reason);
  const place = diagnosis.ranked.findIndex(({ suspect }) =>
    board.faults.some(({ ref }) => ref === suspect.id),
  );
  return place < 0 ? Number.POSITIVE_INFINITY : place + 1;
}

export interface Hits {
  readonly boards: number;
  /** Shares of the boards. */
  readonly first: number;
  readonly topThree: number;
  readonly missed: number;
}

/** Ranks over boards with seeds from `from`, every third with two faults. */
export function ranking(from: number, boards: number, hidden: boolean): Hits {
  const ranks = Array.from({ length: boards }, (_, i) =>
    rankOfTruth({ seed: from + i, faults: i % 3 === 2 ? 2 : 1, hidden }),
  );
  const share = (test: (rank: number) => boolean) => ranks.filter(test).length / boards;
  return {
    boards,
    first: share((rank) => rank === 1),
    topThree: share((rank) => rank <= 3),
    missed: share((rank) => rank === Number.POSITIVE_INFINITY),
  };
}
