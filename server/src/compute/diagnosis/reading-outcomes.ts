// How likely each outcome of a reading is where a given set of suspects is what is wrong.
import type { Net } from "../../knowledge/types";
import type { BoardModel, PartModel } from "./board-model";
import type { Conflict } from "./conflict";
import { FALSE_ALARM, GATE_SHARE, HIDDEN_SHARE, LOW_AFTER_WITHIN, pinEffect, trackEffect } from "./pin-model";
import type { ReadNets } from "./read-nets";
import { missedShare } from "./score";
import { type Suspect, trackSuspect } from "./suspects";
import type { DeviationSide } from "./types";

/** A net comes back when the part that pulled it down is off it. Common practice, no source. */
const CLEARS = 0.95;
const CLEARS_BY_ITSELF = 0.02;

export interface OutcomeModel {
  readonly model: BoardModel;
  readonly read: ReadNets;
  /** That a part's fault is of the kind a diode check shows, given what was read of it. */
  readonly visibleShare: (part: PartModel) => number;
}

/** The look-ups the outcomes need; each part is worked out once. */
export function outcomeModel(
  model: BoardModel,
  read: ReadNets,
  conflicts: readonly Conflict[],
): OutcomeModel {
  const shown = new Set(
    conflicts
      .filter(({ findings }) => findings.some(({ kind }) => kind === "pin" || kind === "chip"))
      .flatMap(({ members }) => members.map(({ suspect }) => suspect.id)),
  );
  const kept = new Map<PartModel, number>();
  const visibleShare = (part: PartModel): number => {
    let share = kept.get(part);
    if (share === undefined) {
      const missed = (1 - HIDDEN_SHARE) * missedShare(part, read);
      share = shown.has(part.part.ref) ? 1 : missed / (HIDDEN_SHARE + missed);
      kept.set(part, share);
    }
    return share;
  };
  return { model, read, visibleShare };
}

/** A diode check where nothing suspected is on the net: only a slip of the lead is left. */
export const NOTHING_ON_NET: readonly [low: number, high: number, within: number] = [
  FALSE_ALARM / 2,
  (1 - FALSE_ALARM / 2) * (FALSE_ALARM / 2),
  (1 - FALSE_ALARM / 2) ** 2,
];

/** Nets on which a set of suspects can show. */
export const netsOf = (model: BoardModel, set: readonly Suspect[]): ReadonlySet<Net> =>
  new Set(
    set.flatMap((suspect): readonly Net[] =>
      suspect.kind === "part"
        ? (model.part(suspect.ref)?.signalPins.map(({ net }) => net) ?? [])
        : suspect.kind === "track"
          ? [model.board.nets.get(suspect.net)].filter((net) => net !== undefined)
          : [],
    ),
  );

/** What each outcome of a reading is worth where a set of suspects, given by their ids, is what is wrong. */
export type Outcomes = (ids: ReadonlySet<string>) => readonly number[];

/** Diode check of a pin: low, high, within limits. */
export function pinOutcomes(
  { model, read, visibleShare }: OutcomeModel,
  part: PartModel,
  net: Net,
): Outcomes {
  // A short or leak would have been seen from any pin of the net.
  const still = (direction: DeviationSide): number =>
    direction === "low" && read.nets.has(net.name) ? LOW_AFTER_WITHIN : 1;
  const misses = (direction: DeviationSide): readonly (readonly [id: string, missed: number])[] => [
    [trackSuspect(net.name).id, 1 - still(direction) * trackEffect(net.pins.length, direction)],
    ...model
      .onNet(net)
      .filter((blamed) => model.isOn(blamed, net))
      .map(
        (blamed) =>
          [
            blamed.part.ref,
            1 - visibleShare(blamed) * pinEffect(blamed, blamed === part, direction),
          ] as const,
      ),
  ];
  const [ofLow, ofHigh] = [misses("low"), misses("high")];
  const unseen = (list: typeof ofLow, ids: ReadonlySet<string>): number => {
    let rest = 1 - FALSE_ALARM / 2;
    for (const [id, missed] of list) if (ids.has(id)) rest *= missed;
    return rest;
  };
  return (ids) => {
    const low = 1 - unseen(ofLow, ids);
    const high = (1 - low) * (1 - unseen(ofHigh, ids));
    return [low, high, 1 - low - high];
  };
}

/** The same pin read again: wrong as before, or within limits because the first reading was a slip. */
export function againOutcomes(conflict: Conflict): Outcomes {
  const ids = (slips: boolean): readonly string[] =>
    conflict.members
      .filter(({ suspect }) => (suspect.kind === "misreading") === slips)
      .map(({ suspect }) => suspect.id);
  const [slips, real] = [ids(true), ids(false)];
  // What was right and wrong already may be either the next time.
  const again = conflict.contradicted !== undefined ? 0.5 : 1 - FALSE_ALARM;
  return (set) => {
    const isSlip = slips.some((id) => set.has(id)) && !real.some((id) => set.has(id));
    const wrong = isSlip ? FALSE_ALARM : again;
    return [wrong, 1 - wrong];
  };
}

/** The net with a part off it: comes back, stays low. `conflict` is what was seen of the net. */
export function liftOutcomes(conflict: Conflict, ref: string): Outcomes {
  return (set) => {
    let own = 0;
    let all = 0;
    for (const { suspect, weight } of conflict.members) {
      if (!set.has(suspect.id)) continue;
      all += weight;
      // A net that was only misread reads right the next time.
      if ((suspect.kind === "part" && suspect.ref === ref) || suspect.kind === "misreading") own += weight;
    }
    const cleared = all > 0 ? CLEARS_BY_ITSELF + (CLEARS - CLEARS_BY_ITSELF) * (own / all) : CLEARS_BY_ITSELF;
    return [cleared, 1 - cleared];
  };
}

/** The states of a gate, powered: against its truth table, or agreeing with it. */
export function gateOutcomes({ part, device }: PartModel): Outcomes {
  const gates = Math.max(1, device?.gates.length ?? 1);
  return (set) => {
    const contradicts = set.has(part.ref) ? Math.max(0.01, GATE_SHARE / gates) : 0.01;
    return [contradicts, 1 - contradicts];
  };
}
