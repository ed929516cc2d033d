// What a conflict set is, and what those that make one share.
import type { Net } from "../../knowledge/types";
import type { BoardModel } from "./board-model";
import { FALSE_ALARM } from "./pin-model";
import { type Suspect, trackSuspect } from "./suspects";
import type { DeviationSide, DiagnosisFinding } from "./types";

/** A suspect of a conflict with the probability that its fault alone would have been seen as this finding. */
export interface Member {
  readonly suspect: Suspect;
  readonly weight: number;
}

/** Suspects of which one at least is to blame for what was seen. */
export interface Conflict {
  /** In the order they were found; each suspect once. */
  readonly members: readonly Member[];
  /** What was seen, as a sentence. */
  readonly reason: string;
  readonly findings: readonly DiagnosisFinding[];
  /** Readings of a pin that was read wrong and right: it comes and goes, or one of them is a slip. */
  readonly contradicted?: number;
}

export type PinFinding = Extract<DiagnosisFinding, { kind: "pin" }>;
/** What a lifted leg showed: whether its net was right without it, or what the leg read by itself. */
export type LiftFinding = Extract<DiagnosisFinding, { kind: "lift" }>;

/** Pin findings that are one fact: the same net off in the same direction. */
export interface PinGroup {
  readonly net?: Net;
  readonly direction?: DeviationSide;
  readonly readings: readonly PinFinding[];
  /** How often the same pin was read within limits as well. */
  readonly contradicted: number;
  /** Of a rail or ground, while another pin of it was read within limits. */
  readonly restRight: boolean;
  /** Low, while another pin of the net was read within limits: one node cannot be both. */
  readonly netContradicted: boolean;
  /** Designators of parts that measured well by themselves, in capitals. */
  readonly measured: ReadonlySet<string>;
  /** Lifts off this net that did not bring it back. */
  readonly uncleared: readonly LiftFinding[];
}

/** Prior of a finding being a mistake. Common practice, no source. */
export const MISTAKE = {
  outOfLimits: FALSE_ALARM,
  far: 0.0012,
  just: 0.05,
  point: 0.3,
  /** A suspect reading has an innocent cause as often as not. */
  suspect: 0.3,
  /** A cell that leaked does no harm any more where its rail is right; it may have been changed. */
  spentCell: 0.9,
  /** Of two readings of one pin that contradict each other, that the one found wrong is the slip. */
  contradicted: 0.02,
  /** Two pins of one net of which one reads low: a fault that pulls down would have shown on both. */
  netContradicted: 0.5,
  /** States read one after the other may not belong together. */
  gate: 0.03,
  steadyGate: 0.01,
  net: 0.02,
  matrixLine: 0.05,
  lift: 0.02,
} as const;

/** Members with each suspect once, at its largest weight, never beyond certainty. */
export function membersOf(...lists: readonly (readonly Member[])[]): Member[] {
  const byId = new Map<string, Member>();
  for (const member of lists.flat()) {
    const known = byId.get(member.suspect.id);
    if (!known || known.weight < member.weight) byId.set(member.suspect.id, member);
  }
  return [...byId.values()].filter(({ weight }) => weight > 0);
}

/** The net's copper, unless it is ground or a rail, which are no single track. */
export const trackMember = (model: BoardModel, net: Net, weight: number): Member[] =>
  model.isSupply(net) ? [] : [{ suspect: trackSuspect(net.name), weight }];
