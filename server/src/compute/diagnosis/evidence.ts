import type { PinRef } from "../../knowledge/types";
import type { BoardModel } from "./board-model";
import type { Conflict } from "./conflict";
import type { ReadNets } from "./read-nets";
import { type Suspect, suspectName } from "./suspects";

export interface Evidence {
  /** What the candidate explains: a sentence for every conflict it is in. */
  readonly for: readonly string[];
  /** What speaks against it without excluding it. */
  readonly against: readonly string[];
  /** Its signal pins that were not read. */
  readonly notTaken: readonly PinRef[];
}

/** What was and was not seen of a set of suspects. */
export function evidenceOf(
  model: BoardModel,
  set: readonly Suspect[],
  conflicts: readonly Conflict[],
  read: ReadNets,
): Evidence {
  const ids = new Set(set.map(({ id }) => id));
  const explained = conflicts.filter(({ members }) => members.some(({ suspect }) => ids.has(suspect.id)));
  const disproved = new Set(
    conflicts.flatMap(({ findings }) =>
      findings.flatMap((finding) =>
        finding.kind === "pin" ? [`${finding.ref}.${finding.pin}`.toUpperCase()] : [],
      ),
    ),
  );
  const against: string[] = [];
  const notTaken: PinRef[] = [];
  for (const suspect of set) {
    if (suspect.kind !== "part") continue;
    const part = model.part(suspect.ref);
    if (!part) continue;
    const ref = part.part.ref;
    const key = (pin: string): string => `${ref}.${pin}`.toUpperCase();
    const pins = part.signalPins.map(({ pin }) => pin);
    const within = pins.filter((pin) => read.pins.has(key(pin)) && !disproved.has(key(pin))).length;
    if (within > 0) {
      against.push(
        `${ref}: ${within} of ${pins.length} signal pins read within limits. That makes it less likely; it cannot exclude it.`,
      );
    }
    if (read.passed.has(ref.toUpperCase()))
      against.push(
        `${ref} passed a test out of circuit. It may still fail warm, at speed or under its load.`,
      );
    for (const pin of pins) {
      if (!read.pins.has(key(pin)) && !disproved.has(key(pin))) notTaken.push({ ref, pin });
    }
  }
  for (const suspect of set) {
    if (suspect.kind === "misreading") against.push(`It takes ${suspectName(suspect)}: read it again.`);
  }
  return { for: explained.map(({ reason }) => reason), against, notTaken };
}
