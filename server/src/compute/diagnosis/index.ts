// From what was found wrong to what may be wrong: conflict sets, their smallest explanations, how likely each is.

import { defined } from "../../base/defined";
import { withLater } from "../../base/later";
import { once } from "../../base/once";
import { finish, type Steps } from "../../base/steps";
import type { Result } from "../result";
import { stated } from "./allowance";
import { type BoardModel, boardModel } from "./board-model";
import type { Conflict } from "./conflict";
import { conflictsOf } from "./conflicts";
import { type Evidence, evidenceOf } from "./evidence";
import { hittingSetSteps } from "./hitting-sets";
import { type PriorFactor, priorsOf } from "./priors";
import { type ReadNets, readNets } from "./read-nets";
import { type Rated, scorer } from "./score";
import { isOfTable, isRepair, type Suspect } from "./suspects";
import type { DiagnosisFinding, DiagnosisInput } from "./types";
import { SETS_A_STEP, widerSets } from "./wider-sets";

/** One explanation of all that was found wrong. */
export interface Candidate {
  /** What would have to be wrong, all of it; repairs first, then what excuses a finding. */
  readonly suspects: readonly Suspect[];
  /** Share among all that was listed; the shares of all candidates add up to one. */
  readonly probability: number;
  readonly evidence: Evidence;
  /** Why each part of it was likely or unlikely beforehand, by designator. */
  readonly priors: ReadonlyMap<string, readonly PriorFactor[]>;
}

/** A part, track or joint over all candidates that hold it. */
export interface RankedSuspect {
  readonly suspect: Suspect;
  /** By the model alone. */
  readonly probability: number;
  /** The same as it may be said, with an allowance for what the model does not know. */
  readonly stated: number;
}

/** Every explanation that was found, and what each suspect comes to over all of them. */
export interface Diagnosis {
  readonly ok: true;
  /** Likeliest first; empty where nothing was found wrong. */
  readonly candidates: readonly Candidate[];
  readonly ranked: readonly RankedSuspect[];
  /** What the candidates were held against. */
  readonly read: ReadNets;
  readonly conflicts: readonly Conflict[];
  /** All explanations of at most this many causes are among the candidates; infinity where all are. */
  readonly completeUpTo: number;
  /** The bound as a sentence. */
  readonly bound: string;
  /** What of the input could not be used, as sentences. */
  readonly problems: readonly string[];
}

export interface DiagnosisOptions {
  readonly maxSize?: number;
  readonly maxNodes?: number;
}

/**
 * Ranks what may be wrong with a board. Findings and readings about parts or nets that the board does not have are
 * left out and named in `problems`. Refused only where an option is not a number of zero or more. The
 * probabilities rest on the priors and the observation model, which are common practice without a source: they
 * say where to look first, and not how sure anyone may be.
 */
export const diagnose = (input: DiagnosisInput, options: DiagnosisOptions = {}): Result<Diagnosis> =>
  finish(diagnosisSteps(input, options));

/** As `diagnose`, in steps. */
export function* diagnosisSteps(
  input: DiagnosisInput,
  options: DiagnosisOptions = {},
): Steps<Result<Diagnosis>> {
  const model = boardModel(input.board, input.deviceOf);
  yield;
  const read = readNets(model, input);
  const { conflicts, problems } = yield* conflictsOf(model, input.findings, read);
  yield;
  const suspects = new Map(conflicts.flatMap(({ members }) => members.map((m) => [m.suspect.id, m.suspect])));
  const priorOf = priorsOf(
    model,
    defined({
      history: input.history,
      replaced: input.replaced,
      year: input.year,
      leakSeen: input.findings.some((one) => isLeak(model, one)) || undefined,
    }),
  );
  const cost = (id: string): number => {
    const suspect = suspects.get(id);
    const probability = suspect ? priorOf(suspect).probability : 0.5;
    return Math.max(0, Math.log((1 - probability) / probability));
  };
  const found = yield* hittingSetSteps(
    conflicts.map(({ members }) => members.map(({ suspect }) => suspect.id)),
    { ...options, cost },
  );
  if (!found.ok) return found;
  yield;
  const score = scorer({ model, conflicts, priorOf, read });
  const smallest: Rated[] = [];
  for (const [i, set] of found.sets.entries()) {
    if (i % SETS_A_STEP === 0) yield;
    if (set.length > 0) smallest.push(score.rate(set.flatMap((id) => suspects.get(id) ?? [])));
  }
  const wider = yield* widerSets(smallest, conflicts, score, (suspect) => -cost(suspect.id));
  const rated = [...smallest, ...wider];
  const shares = normalised(rated.map((one) => one.score));
  yield;
  const candidates = rated
    .map(({ set }, i) => ({
      set: [...set].sort((a, b) => rank(a) - rank(b)),
      probability: shares[i] ?? 0,
      i,
    }))
    .sort((a, b) => b.probability - a.probability || a.i - b.i)
    .map(({ set, probability }) => candidate(set, probability));
  return {
    ok: true,
    candidates,
    ranked: ranking(candidates),
    read,
    conflicts,
    completeUpTo: found.completeUpTo,
    bound: conflicts.length === 0 ? NOTHING[nothingOf(input)] : found.statement,
    problems,
  };

  /** Evidence is written out only for those who look at it: there may be thousands of candidates. */
  function candidate(set: readonly Suspect[], probability: number): Candidate {
    const priors = () =>
      new Map(
        set.flatMap((suspect) =>
          suspect.kind === "part" ? [[suspect.ref, priorOf(suspect).factors] as const] : [],
        ),
      );
    return withLater(
      { suspects: set, probability },
      { evidence: once(() => evidenceOf(model, set, conflicts, read)), priors },
    );
  }
}

/** Somebody saw what the battery leaves. */
const isLeak = (model: BoardModel, finding: DiagnosisFinding): boolean =>
  finding.kind === "part" &&
  (finding.surface === true ||
    (model.part(finding.ref)?.kind === "battery" && /inspection$/.test(finding.of)));

/** Why nobody is suspected. */
const NOTHING = {
  found: "Nothing was found wrong, so nothing is suspected.",
  answered: "Nothing that was found wrong still stands, so nothing is suspected.",
  "no-part": "What failed names no part of the board, so nothing is suspected.",
} as const;

const nothingOf = ({ findings, notCounted }: DiagnosisInput): keyof typeof NOTHING =>
  findings.length > 0 ? "no-part" : (notCounted ?? "found");

const rank = (suspect: Suspect): number => (isRepair(suspect) ? 0 : 1);

/** Weights from their logarithms, adding up to one. */
function normalised(scores: readonly number[]): number[] {
  const most = scores.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const weights = scores.map((score) => Math.exp(score - most));
  const total = weights.reduce((a, b) => a + b, 0);
  return weights.map((weight) => weight / total);
}

function ranking(candidates: readonly Candidate[]): RankedSuspect[] {
  const shares = new Map<string, { suspect: Suspect; probability: number }>();
  for (const { suspects, probability } of candidates) {
    for (const suspect of suspects) {
      if (!isRepair(suspect) && !isOfTable(suspect)) continue;
      const entry = shares.get(suspect.id);
      if (entry) entry.probability += probability;
      else shares.set(suspect.id, { suspect, probability });
    }
  }
  const sorted = [...shares.values()].sort(
    (a, b) => b.probability - a.probability || (a.suspect.id < b.suspect.id ? -1 : 1),
  );
  const said = stated(sorted.map(({ probability }) => probability));
  return sorted.map((one, i) => ({ ...one, stated: said[i] ?? one.probability }));
}
