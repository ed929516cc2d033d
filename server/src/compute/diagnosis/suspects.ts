// What a diagnosis may blame. Besides parts: the copper, the person with the probe, and what the board file
// leaves out, since a conflict that could only be explained by parts would accuse one wrongly.

/** Something that may be to blame. Its `id` is the same wherever it is suspected. */
export type Suspect =
  | { readonly kind: "part"; readonly id: string; readonly ref: string }
  /** The copper and joints of one net. */
  | { readonly kind: "track"; readonly id: string; readonly net: string }
  /** Solder, dirt or a hair between two nets, of which one may be ground or a rail. */
  | { readonly kind: "bridge"; readonly id: string; readonly nets: readonly [string, string] }
  /** The joint, socket contact or track that ties one pin to ground or a rail. */
  | {
      readonly kind: "joint";
      readonly id: string;
      readonly ref: string;
      readonly pin: string;
      /** The part is in a socket: its contact there comes before the joint below. */
      readonly contact?: true;
    }
  /** The finding is wrong: the lead on the neighbouring pin, a slip of the pen. */
  | {
      readonly kind: "misreading";
      readonly id: string;
      readonly of: string;
      readonly prior: number;
      /** What was wrong with a whole table: to be set right before anything else is. */
      readonly ofTable?: string;
    }
  /** Something off the board, in the machine. */
  | { readonly kind: "outside"; readonly id: string; readonly of: string }
  /** The symptom comes from somewhere the board file does not list under it, or from off the board. */
  | { readonly kind: "elsewhere"; readonly id: string; readonly of: string };

/** The part at a designator, as the board file writes it. */
export const partSuspect = (ref: string): Suspect => ({ kind: "part", id: ref, ref });
/** The copper of a net by its name. */
export const trackSuspect = (net: string): Suspect => ({ kind: "track", id: `track ${net}`, net });
/** What joins two nets by their names that are none, in whatever order. */
export const bridgeSuspect = (one: string, other: string): Suspect => {
  const nets = one < other ? ([one, other] as const) : ([other, one] as const);
  return { kind: "bridge", id: `bridge ${nets.join(" ")}`, nets };
};
/** What ties one pin to its net. */
export const jointSuspect = (ref: string, pin: string): Suspect => ({
  kind: "joint",
  id: `joint ${ref}.${pin}`,
  ref,
  pin,
});
/** That a reading is wrong; `of` names it in words, and `prior` is the probability of such a slip. */
export const misreadingSuspect = (of: string, prior: number): Suspect => ({
  kind: "misreading",
  id: `misreading ${of}`,
  of,
  prior,
});
/** A whole table measured or written wrong. */
export const tableSuspect = (of: string, mistake: string, prior: number): Suspect => ({
  kind: "misreading",
  id: `misreading ${of}`,
  of,
  prior,
  ofTable: mistake,
});
/** Something in the machine, named in words. */
export const outsideSuspect = (of: string): Suspect => ({ kind: "outside", id: `outside ${of}`, of });
/** Something that the board file does not list; `of` names the symptom or rail that it shows at. */
export const elsewhereSuspect = (of: string): Suspect => ({ kind: "elsewhere", id: `elsewhere ${of}`, of });

/** The suspect in a sentence. */
export function suspectName(suspect: Suspect): string {
  switch (suspect.kind) {
    case "part":
      return suspect.ref;
    case "track":
      return `the track or a joint of ${suspect.net}`;
    case "bridge":
      return `a bridge between ${suspect.nets.join(" and ")}`;
    case "joint":
      return `the ${suspect.contact ? "socket contact or joint" : "joint"} of ${suspect.ref} pin ${suspect.pin}`;
    case "misreading":
      return suspect.ofTable === undefined
        ? `a mistake in the reading of ${suspect.of}`
        : `${suspect.of}: ${suspect.ofTable}`;
    case "outside":
      return suspect.of;
    case "elsewhere":
      return `a cause of "${suspect.of}" that the board file does not list`;
  }
}

/** True for what can be repaired, on the board or off it; the others only excuse a finding. */
export const isRepair = ({ kind }: Suspect): boolean => kind !== "misreading" && kind !== "elsewhere";

/** A table measured wrong, which is no slip of one reading: it stands among what is to be set right. */
export const isOfTable = (suspect: Suspect): boolean =>
  suspect.kind === "misreading" && suspect.ofTable !== undefined;
