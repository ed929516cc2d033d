// What a diagnosis may blame. Besides parts: the copper, the person with the probe, and what the board file
// leaves out, since a conflict that could only be explained by parts would accuse one wrongly.

export type Suspect =
  | { readonly kind: "part"; readonly id: string; readonly ref: string }
  /** The copper and joints of one net. */
  | { readonly kind: "track"; readonly id: string; readonly net: string }
  /** The joint, socket contact or track that ties one pin to ground or a rail. */
  | { readonly kind: "joint"; readonly id: string; readonly ref: string; readonly pin: string }
  /** The finding is wrong: the lead on the neighbouring pin, a slip of the pen. */
  | { readonly kind: "misreading"; readonly id: string; readonly of: string; readonly prior: number }
  /** The symptom comes from somewhere the board file does not list under it, or from off the board. */
  | { readonly kind: "elsewhere"; readonly id: string; readonly of: string };

export const partSuspect = (ref: string): Suspect => ({ kind: "part", id: ref, ref });
export const trackSuspect = (net: string): Suspect => ({ kind: "track", id: `track ${net}`, net });
export const jointSuspect = (ref: string, pin: string): Suspect => ({
  kind: "joint",
  id: `joint ${ref}.${pin}`,
  ref,
  pin,
});
export const misreadingSuspect = (of: string, prior: number): Suspect => ({
  kind: "misreading",
  id: `misreading ${of}`,
  of,
  prior,
});
export const elsewhereSuspect = (of: string): Suspect => ({ kind: "elsewhere", id: `elsewhere ${of}`, of });

/** The suspect in a sentence. */
export function suspectName(suspect: Suspect): string {
  switch (suspect.kind) {
    case "part":
      return suspect.ref;
    case "track":
      return `the track or a joint of ${suspect.net}`;
    case "joint":
      return `the joint of ${suspect.ref} pin ${suspect.pin}`;
    case "misreading":
      return `a mistake in the reading of ${suspect.of}`;
    case "elsewhere":
      return `a cause of "${suspect.of}" that the board file does not list`;
  }
}

/** True for what can be repaired on the board; the others only excuse a finding. */
export const isRepair = (suspect: Suspect): boolean =>
  suspect.kind === "part" || suspect.kind === "track" || suspect.kind === "joint";
