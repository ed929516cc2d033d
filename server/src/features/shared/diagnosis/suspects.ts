// The ranked suspects of a diagnosis with what speaks for and against each, in plain values and words.

import { defined } from "../../../base/defined";
import type { Candidate, RankedSuspect } from "../../../compute/diagnosis";
import { ALLOWANCE } from "../../../compute/diagnosis/allowance";
import { boardModel } from "../../../compute/diagnosis/board-model";
import type { Conflict } from "../../../compute/diagnosis/conflict";
import { evidenceOf } from "../../../compute/diagnosis/evidence";
import { isRepair, type Suspect, suspectName } from "../../../compute/diagnosis/suspects";
import { pinText } from "../../../compute/nets/net-text";
import { partAt } from "../../../judge/board-parts";
import type { PinRef } from "../../../knowledge/types";
import type { AwaitedRetest } from "../../../review/diagnosis/from-log";
import type { LogDiagnosis } from "../../../review/diagnosis/of-log";
import type { LogView } from "../../view";
import { partLine } from "../describe";

interface NamedSuspect {
  /** "U14", "the track or a joint of ROW_7". */
  readonly name: string;
  /** What part it is; absent for copper. */
  readonly title?: string;
  readonly share: number;
  readonly against: readonly string[];
  /** Why it was likely before anything was read. */
  readonly before: readonly string[];
}

/** With what it is suspected for and which of its pins were not read, as they were found. */
export interface WeighedSuspect extends NamedSuspect {
  readonly for: readonly Conflict[];
  readonly notTaken: readonly PinRef[];
}

/** The same in words. */
export interface ListedSuspect extends NamedSuspect {
  readonly for: readonly string[];
  /** "U14 pin 3". */
  readonly notTaken: readonly string[];
}

/** A suspect that would have been seen as a finding this seldom is no reason to name it there. */
const HARDLY = 0.02;
/** A suspect with less of what was considered is not listed on its own. */
const LEAST_SHARE = 0.005;

/** How likely a suspect alone would have been seen as the finding; 0 where it could not. */
export const weightIn = ({ members }: Conflict, { id }: Suspect): number =>
  members.find(({ suspect }) => suspect.id === id)?.weight ?? 0;

/** The likeliest suspects; with `of`, only those that may have caused one of these conflicts. */
export function rankedFor(
  { diagnosis }: LogDiagnosis,
  top: number,
  of: readonly Conflict[] = diagnosis.conflicts,
): readonly RankedSuspect[] {
  return diagnosis.ranked
    .filter(
      ({ suspect, probability }) =>
        probability >= LEAST_SHARE && of.some((conflict) => weightIn(conflict, suspect) >= HARDLY),
    )
    .slice(0, top);
}

/** What was measured comes before what follows from it, and what was only complained of last. */
function plainness({ findings }: Conflict): number {
  const kind = findings[0]?.kind;
  return kind === "symptom" ? 2 : kind === "matrix-line" || kind === "gate" ? 1 : 0;
}

export function listedSuspect(view: LogView, found: LogDiagnosis, ranked: RankedSuspect): ListedSuspect {
  const suspect = weighed(view, found, ranked);
  return {
    ...suspect,
    for: suspect.for.map(({ reason }) => reason),
    notTaken: suspect.notTaken.map(pinText),
  };
}

/** A ranked suspect with the evidence for and against it, the plainest first, and the pins that were not read. */
export function weighed(
  view: LogView,
  { log, diagnosis }: LogDiagnosis,
  { suspect, stated }: RankedSuspect,
): WeighedSuspect {
  const { board, deviceOf } = log.input;
  const { conflicts, read } = diagnosis;
  const own = [...conflicts]
    .map((conflict) => ({ conflict, weight: weightIn(conflict, suspect) }))
    .filter(({ weight }) => weight >= HARDLY)
    .sort((a, b) => plainness(a.conflict) - plainness(b.conflict) || b.weight - a.weight);
  const { against, notTaken } = evidenceOf(boardModel(board, deviceOf), [suspect], conflicts, read);
  const part = suspect.kind === "part" ? partAt(suspect.ref, view.ctx) : undefined;
  const factors =
    suspect.kind === "part"
      ? diagnosis.candidates
          .find(({ suspects }) => suspects.some(({ id }) => id === suspect.id))
          ?.priors.get(suspect.ref)
      : undefined;
  return defined({
    name: suspectName(suspect),
    title: part ? partLine(part, board, view.ctx) : undefined,
    share: stated,
    for: own.map(({ conflict }) => conflict),
    against,
    notTaken,
    // The kind of part is said by its title; the rest is what is special about this one.
    before: (factors ?? [])
      .slice(1)
      .filter(({ factor }) => factor > 1)
      .map(({ name, source }) => `${name} (${source})`),
  });
}

/** What would have to be replaced or repaired together, and which readings would have to be slips. */
export interface Story {
  readonly blamed: readonly string[];
  readonly excused: readonly string[];
  readonly share: number;
}

/** One explanation of all that was found, in names: parts to be repaired, and readings that would have to be wrong. */
export const storyOf = ({ suspects, probability }: Candidate): Story => ({
  blamed: suspects.filter(isRepair).map(suspectName),
  excused: suspects.filter((suspect) => !isRepair(suspect)).map(suspectName),
  share: (1 - ALLOWANCE) * probability,
});

/** A share as it is said: "about 85 %". */
export interface Share {
  readonly how: "about" | "over" | "under";
  readonly percent: number;
}

/** The shares rest on rough figures, so they are said roughly. */
export function roughShare(share: number): Share {
  if (share < 0.01) return { how: "under", percent: 1 };
  if (share > 0.99) return { how: "over", percent: 99 };
  const percent = 100 * share;
  const isFine = percent < 10 || percent > 95;
  return { how: "about", percent: isFine ? Math.round(percent) : 5 * Math.round(percent / 5) };
}

/** A share from 0 to 1 in words: "about 35 %". */
export function shareText(share: number): string {
  const { how, percent } = roughShare(share);
  return `${how} ${percent} %`;
}

/** "U12 with U14, if the ripple of +5V was misread". */
export function storyText({ blamed, excused }: Story): string {
  const what = blamed.length > 0 ? blamed.join(" with ") : "nothing on the board";
  return excused.length > 0 ? `${what}, and ${excused.join(", ")}` : what;
}

/** What was found wrong before a replacement, as sentences. */
export const waitingText = (waiting: readonly Omit<AwaitedRetest, "symptoms">[]): string[] =>
  waiting.map(
    ({ ref, what }) =>
      `Found before work on ${ref} and not seen again since: ${what.join("; ")}. Not counted; read it again.`,
  );
