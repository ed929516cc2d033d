// Whether a diagnosis is right: its suspects' names against what was injected.
import { isNamed } from "../../stories/judge";
import type { Specimen } from "./bench";
import { refOf } from "./board";
import type { Truth } from "./fault";

export interface Named {
  readonly name: string;
  readonly share: number;
}

export interface Outcome {
  readonly specimen: Specimen;
  /** Place of the first suspect that is right, from 0; -1 where none is. */
  readonly place: number;
  readonly leader: Named | undefined;
  readonly second: Named | undefined;
  /** As the stories have them: suspects that are right by one cause are one claim, with the sum of their shares. */
  readonly claims: readonly { readonly share: number; readonly right: boolean }[];
}

/** Suspects that count as a claim, as many as of a story. */
const CLAIMED = 8;

/** Nothing here is named by a matrix' crossing. */
const NO_CROSSINGS = { id: "", parts: {}, nets: {}, rails: {} };

/** What is right to name, in the words that the stories' answers have. */
function accepted(truth: Truth): string[] {
  if (truth.kind === "part") return [truth.ref];
  if (truth.kind === "net") return [`net ${truth.net}`];
  const ref = refOf(truth.pin);
  // A header is named whole.
  return [truth.pin, ...(ref.startsWith("J") ? [ref] : [])];
}

export function judge(specimen: Specimen, suspects: readonly Named[]): Outcome {
  const right = specimen.truth.flatMap(accepted);
  const fits = ({ name }: Named): boolean => right.some((accept) => isNamed(name, accept, NO_CROSSINGS));
  const listed = suspects.slice(0, CLAIMED);
  const share = Math.min(
    1,
    listed.filter(fits).reduce((sum, one) => sum + one.share, 0),
  );
  return {
    specimen,
    place: suspects.findIndex(fits),
    leader: suspects[0],
    second: suspects[1],
    claims: [
      ...listed.flatMap((one) => (fits(one) ? [] : [{ share: one.share, right: false }])),
      ...(share > 0 ? [{ share, right: true }] : []),
    ],
  };
}

export interface Tally {
  readonly count: number;
  readonly first: number;
  readonly three: number;
}

export const tally = (outcomes: readonly Outcome[]): Tally => ({
  count: outcomes.length,
  first: outcomes.filter(({ place }) => place === 0).length,
  three: outcomes.filter(({ place }) => place >= 0 && place < 3).length,
});

export interface Band {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  /** What the claims say, and how many of them are right. */
  readonly said: number;
  readonly right: number;
}

const BANDS = [0, 0.2, 0.4, 0.6, 0.8, 1] as const;

/** Stated shares against how often they are so, and the Brier score of whoever leads. */
export function calibration(outcomes: readonly Outcome[]): {
  readonly bands: Band[];
  readonly brier: number;
} {
  const claims = outcomes.flatMap((one) => one.claims);
  const mean = (values: readonly number[]) =>
    values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
  const bands = BANDS.slice(1).map((to, i) => {
    const from = BANDS[i]!;
    const within = claims.filter(({ share }) => share >= from && (share < to || to === 1));
    return {
      from,
      to,
      count: within.length,
      said: mean(within.map(({ share }) => share)),
      right: mean(within.map(({ right }) => Number(right))),
    };
  });
  const led = outcomes.flatMap(({ leader, place }) =>
    leader ? [(leader.share - Number(place === 0)) ** 2] : [],
  );
  return { bands, brier: mean(led) };
}
