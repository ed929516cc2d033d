// The posterior of a set of faults, up to a constant: faults and readings taken as independent.
import type { BoardModel, PartModel } from "./board-model";
import type { Conflict } from "./conflict";
import { GATE_SHARE, HIDDEN_SHARE, lowShare, wrongPinShare } from "./pin-model";
import type { Prior } from "./priors";
import type { ReadNets } from "./read-nets";
import { AGAINST } from "./strength";
import type { Suspect } from "./suspects";

/**
 * Probability that what was read within limits would have been, the part being faulty. Never below the share of
 * faults that no unpowered reading shows: such readings speak against a part and cannot clear it.
 */
export function unseenShare(part: PartModel, read: ReadNets): number {
  const ref = part.part.ref.toUpperCase();
  const passed = (read.passed.has(ref) ? AGAINST["chip-test-pass"].left : 1) * (read.left.get(ref) ?? 1);
  return (
    (HIDDEN_SHARE + (1 - HIDDEN_SHARE) * missedShare(part, read)) * gatesMissedShare(part, read) * passed
  );
}

/** The same for gates read powered, which show some of what is hidden otherwise. */
function gatesMissedShare({ part, device }: PartModel, read: ReadNets): number {
  const gates = device?.gates ?? [];
  const agreed = gates.filter(({ name }) => read.gates.has(`${part.ref}.${name}`.toUpperCase())).length;
  return agreed === 0 ? 1 : 1 - (GATE_SHARE * agreed) / gates.length;
}

/** Probability that a fault that can be seen would be missed by what was read. */
export function missedShare(part: PartModel, read: ReadNets): number {
  const share = wrongPinShare(part);
  const ref = part.part.ref.toUpperCase();
  let missed = 1;
  for (const { pin, net } of part.signalPins) {
    if (read.pins.has(`${ref}.${pin.toUpperCase()}`)) missed *= 1 - share;
    else if (read.nets.has(net.name)) missed *= 1 - share * lowShare(part.kind);
  }
  return missed;
}

export interface Scoring {
  readonly model: BoardModel;
  readonly conflicts: readonly Conflict[];
  readonly priorOf: (suspect: Suspect) => Prior;
  readonly read: ReadNets;
}

/** A set with its weight, and what it leaves of each conflict: that none of it would have been seen as this. */
export interface Rated {
  readonly set: readonly Suspect[];
  /** Logarithm of the weight, up to a constant: prior odds, how well it explains every conflict, what it left unseen. */
  readonly score: number;
  readonly missed: Float64Array;
}

export interface Scorer {
  rate(set: readonly Suspect[]): Rated;
  /** The score of the set with one suspect more. */
  withOneMore(rated: Rated, suspect: Suspect): number;
}

/** A suspect's own part in a score, and what it leaves of the conflicts that it is in. */
interface Own {
  readonly score: number;
  readonly conflicts: readonly number[];
  readonly missed: readonly number[];
}

export function scorer({ model, conflicts, priorOf, read }: Scoring): Scorer {
  const hits = new Map<string, { conflicts: number[]; missed: number[] }>();
  conflicts.forEach(({ members }, c) => {
    for (const { suspect, weight } of members) {
      let hit = hits.get(suspect.id);
      if (!hit) {
        hit = { conflicts: [], missed: [] };
        hits.set(suspect.id, hit);
      }
      hit.conflicts.push(c);
      hit.missed.push(1 - weight);
    }
  });
  const known = new Map<string, Own>();
  const own = (suspect: Suspect): Own => {
    let one = known.get(suspect.id);
    if (one === undefined) {
      const { probability } = priorOf(suspect);
      const part = suspect.kind === "part" ? model.part(suspect.ref) : undefined;
      const score =
        Math.log(probability / (1 - probability)) + (part ? Math.log(unseenShare(part, read)) : 0);
      one = { ...(hits.get(suspect.id) ?? NOTHING_HIT), score };
      known.set(suspect.id, one);
    }
    return one;
  };
  return {
    rate(set) {
      // Any one of them alone may have caused it.
      const missed = new Float64Array(conflicts.length).fill(1);
      let score = 0;
      for (const suspect of set) {
        const one = own(suspect);
        score += one.score;
        for (let i = 0; i < one.conflicts.length; i += 1) missed[one.conflicts[i]!]! *= one.missed[i]!;
      }
      for (let c = 0; c < missed.length; c += 1) score += explained(missed[c]!);
      return { set, score, missed };
    },
    withOneMore({ score, missed }, suspect) {
      const one = own(suspect);
      let after = score + one.score;
      for (let i = 0; i < one.conflicts.length; i += 1) {
        const before = missed[one.conflicts[i]!]!;
        after += explained(before * one.missed[i]!) - explained(before);
      }
      return after;
    },
  };
}

const NOTHING_HIT = { conflicts: [], missed: [] };

const explained = (missed: number): number => Math.log(Math.max(1e-12, 1 - missed));
