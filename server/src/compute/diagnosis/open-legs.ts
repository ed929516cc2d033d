// Joints that were found open at their own pins, and what the chip they are of does wrong by them.
import type { BoardModel } from "./board-model";
import type { Conflict, Member } from "./conflict";
import type { Suspect } from "./suspects";

// Common practice, no source.
const LEG = {
  /** An open found at a leg of the chip itself, for all that the chip is blamed for: its supply, and one of its signals. */
  feed: 0.9,
  leg: 0.7,
  /** The same for its pins that read high. */
  high: 0.6,
} as const;
/** A joint that a finding at its own pin makes at least so likely was found open there. */
const FOUND = 0.45;

/** A joint that was found open at its own pin. */
export interface OpenLeg {
  readonly suspect: Suspect;
  readonly ref: string;
  readonly feeds: boolean;
}

/** Joints and tracks that a finding at their own pin says are open. */
export function openLegs(model: BoardModel, conflicts: readonly Conflict[]): OpenLeg[] {
  const found = new Map<string, OpenLeg>();
  for (const { findings, members } of conflicts) {
    const pins = findings.flatMap((finding) =>
      finding.kind === "pin"
        ? [finding]
        : finding.kind !== "sign"
          ? []
          : finding.sign === "floating" && finding.ref !== undefined && finding.pin !== undefined
            ? [{ ref: finding.ref, pin: finding.pin }]
            : (finding.pins ?? []),
    );
    for (const { ref, pin } of pins) {
      const id = `joint ${ref}.${pin}`.toUpperCase();
      for (const { suspect, weight } of members) {
        if (suspect.kind !== "joint" || suspect.id.toUpperCase() !== id || weight < FOUND) continue;
        const net = model.netAt(ref, pin);
        found.set(suspect.id, { suspect, ref: suspect.ref, feeds: net !== undefined && model.isSupply(net) });
      }
    }
  }
  return [...found.values()];
}

/** What a chip is blamed for, it does as well with one of its legs in the air. */
export function ofLegs({ members, findings }: Conflict, legs: readonly OpenLeg[]): Member[] {
  if (findings.some(({ kind }) => kind === "lift" || kind === "part" || kind === "table")) return [];
  return legs.flatMap(({ suspect, ref, feeds }): Member[] => {
    const chip = members.find((one) => one.suspect.kind === "part" && one.suspect.ref === ref);
    if (!chip) return [];
    // Nothing conducts to ground inside a chip that is off it.
    const high = feeds && findings.every((one) => one.kind === "pin" && one.direction === "high");
    return [{ suspect, weight: high ? LEG.high : chip.weight * (feeds ? LEG.feed : LEG.leg) }];
  });
}
