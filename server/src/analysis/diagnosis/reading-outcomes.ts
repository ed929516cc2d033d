// How likely each outcome of a reading is where a given set of suspects is what is wrong.
import type { Net } from "../../knowledge/types";
import type { BoardModel, PartModel } from "./board-model";
import type { Conflict } from "./conflict";
import { FALSE_ALARM, GATE_SHARE, HIDDEN_SHARE, pinEffect, trackEffect } from "./pin-model";
import { missedShare, type ReadNets } from "./score";
import type { Suspect } from "./suspects";
import type { Direction } from "./types";

/** A net comes back when the part that pulled it down is off it. Common practice, no source. */
const CLEARS = 0.95;
const CLEARS_BY_ITSELF = 0.02;

export interface OutcomeModel {
  readonly model: BoardModel;
  readonly read: ReadNets;
  readonly conflicts: readonly Conflict[];
}

/** Diode check of a pin: low, high, within limits. */
export function pinOutcomes(
  { model, read, conflicts }: OutcomeModel,
  part: PartModel,
  net: Net,
  set: readonly Suspect[],
): readonly [low: number, high: number, within: number] {
  const unseen = (direction: Direction): number =>
    set.reduce(
      (rest, suspect) => {
        if (suspect.kind === "track" && suspect.net === net.name) return rest * (1 - trackEffect(direction));
        if (suspect.kind !== "part") return rest;
        const blamed = model.part(suspect.ref);
        if (!blamed?.signalPins.some((pin) => pin.net === net)) return rest;
        return (
          rest * (1 - visibleShare(blamed, read, conflicts) * pinEffect(blamed, blamed === part, direction))
        );
      },
      1 - FALSE_ALARM / 2,
    );
  const low = 1 - unseen("low");
  const high = (1 - low) * (1 - unseen("high"));
  return [low, high, 1 - low - high];
}

/** The net with a part off it: comes back, stays low. `conflict` is what was seen of the net. */
export function liftOutcomes(
  conflict: Conflict,
  ref: string,
  set: readonly Suspect[],
): readonly [cleared: number, stays: number] {
  let own = 0;
  let all = 0;
  for (const suspect of set) {
    const weight = conflict.members.find((member) => member.suspect.id === suspect.id)?.weight ?? 0;
    all += weight;
    // A net that was only misread reads right the next time.
    if ((suspect.kind === "part" && suspect.ref === ref) || suspect.kind === "misreading") own += weight;
  }
  const cleared = all > 0 ? CLEARS_BY_ITSELF + (CLEARS - CLEARS_BY_ITSELF) * (own / all) : CLEARS_BY_ITSELF;
  return [cleared, 1 - cleared];
}

/** The states of a gate, powered: against its truth table, or agreeing with it. */
export function gateOutcomes(
  part: PartModel,
  set: readonly Suspect[],
): readonly [contradicts: number, agrees: number] {
  const blamed = set.some((suspect) => suspect.kind === "part" && suspect.ref === part.part.ref);
  const gates = Math.max(1, part.device?.gates.length ?? 1);
  const contradicts = blamed ? Math.max(0.01, GATE_SHARE / gates) : 0.01;
  return [contradicts, 1 - contradicts];
}

/** That a part's fault is of the kind a diode check shows, given what was read of it. */
function visibleShare(part: PartModel, read: ReadNets, conflicts: readonly Conflict[]): number {
  const shown = conflicts.some(
    ({ members, findings }) =>
      findings.some(({ kind }) => kind === "pin") &&
      members.some(({ suspect }) => suspect.id === part.part.ref),
  );
  if (shown) return 1;
  const missed = (1 - HIDDEN_SHARE) * missedShare(part, read);
  return missed / (HIDDEN_SHARE + missed);
}
