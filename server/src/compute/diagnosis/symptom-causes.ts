// A function that fails may fail by what other findings name: joints, tracks, bridges, and what is in the machine.
import type { BoardModel } from "./board-model";
import type { Conflict, Member } from "./conflict";
import type { Suspect } from "./suspects";

// Common practice, no source.
const NAMED = {
  /** A joint of a part of the failing circuit, found by something else. */
  joint: 0.5,
  outside: 0.4,
  /** A track found open or joined to another by the beeper, whatever it is of. */
  rung: 0.35,
} as const;
/** A bridge that was found, for a function, and for the sum or the test of a memory. */
export const BRIDGED_FUNCTION = 0.45;

/** What of `pointed`, which other findings name, may be behind the symptom, with how well it explains it. */
export function symptomCauses(
  model: BoardModel,
  { members }: Conflict,
  pointed: ReadonlyMap<string, Suspect>,
): Member[] {
  const parts = new Map(
    members.flatMap(({ suspect, weight }) =>
      suspect.kind === "part" ? [[suspect.ref, weight] as const] : [],
    ),
  );
  return [...pointed.values()].flatMap((suspect): Member[] => {
    if (suspect.kind === "part" && parts.has(suspect.ref) && parts.get(suspect.ref)! >= NAMED.outside)
      return [];
    if (suspect.kind === "outside" || suspect.kind === "part") return [{ suspect, weight: NAMED.outside }];
    if (suspect.kind === "track") return [{ suspect, weight: NAMED.rung }];
    if (suspect.kind === "bridge") return [{ suspect, weight: BRIDGED_FUNCTION }];
    const weight = suspect.kind === "joint" ? (ofHeader(suspect) ?? parts.get(suspect.ref)) : undefined;
    return weight === undefined ? [] : [{ suspect, weight: weight * NAMED.joint }];
  });

  /** A header belongs to no circuit alone: what its pin takes a line from, or gives one to, does. */
  function ofHeader({ ref, pin }: Extract<Suspect, { kind: "joint" }>): number | undefined {
    const net = model.part(ref)?.kind === "connector" ? model.netAt(ref, pin) : undefined;
    if (!net) return undefined;
    const weights = net.pins.flatMap((one) => parts.get(one.ref) ?? []);
    return weights.length > 0 ? Math.max(...weights) : undefined;
  }
}
