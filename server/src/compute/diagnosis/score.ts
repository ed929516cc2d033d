// The posterior of a set of faults, up to a constant: faults and readings taken as independent.
import type { BoardModel, PartModel } from "./board-model";
import type { Conflict } from "./conflict";
import { GATE_SHARE, HIDDEN_SHARE, lowShare, TESTER_SHARE, wrongPinShare } from "./pin-model";
import type { Prior } from "./priors";
import type { ReadNets } from "./read-nets";
import type { Suspect } from "./suspects";

/**
 * Probability that what was read within limits would have been, the part being faulty. Never below the share of
 * faults that no unpowered reading shows: such readings speak against a part and cannot clear it.
 */
export function unseenShare(part: PartModel, read: ReadNets): number {
  const passed = read.passed.has(part.part.ref.toUpperCase()) ? 1 - TESTER_SHARE : 1;
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

/** Gives the logarithm of a set's weight: prior odds, how well it explains every conflict, what it left unseen. */
export function scorer({ model, conflicts, priorOf, read }: Scoring): (set: readonly Suspect[]) => number {
  const weights = conflicts.map(
    ({ members }) => new Map(members.map(({ suspect, weight }) => [suspect.id, weight] as const)),
  );
  const own = new Map<string, number>();
  const ownScore = (suspect: Suspect): number => {
    let score = own.get(suspect.id);
    if (score === undefined) {
      const { probability } = priorOf(suspect);
      const part = suspect.kind === "part" ? model.part(suspect.ref) : undefined;
      score = Math.log(probability / (1 - probability)) + (part ? Math.log(unseenShare(part, read)) : 0);
      own.set(suspect.id, score);
    }
    return score;
  };
  return (set) => {
    let score = set.reduce((sum, suspect) => sum + ownScore(suspect), 0);
    for (const weight of weights) {
      // Any one of them alone may have caused it.
      const unexplained = set.reduce((rest, { id }) => rest * (1 - (weight.get(id) ?? 0)), 1);
      score += Math.log(Math.max(1e-12, 1 - unexplained));
    }
    return score;
  };
}
