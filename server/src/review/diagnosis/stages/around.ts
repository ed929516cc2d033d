// What the voltages around a part are held against, whatever part it is.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import type { LogContext } from "../../../judge/context";
import { siValue } from "../../../judge/uncertainty";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Net, PinRef } from "../../../knowledge/types";
import type { Reading } from "../../../log/model";
import type { Observation } from "../observation";
import type { Volt } from "../supplies/off-supply";
import type { RailVolts } from "../supplies/rails-read";

/** Volts; common practice, no source. */
export const STAGE = {
  /** Between base and emitter: off below, on above, open above the last. */
  off: 0.35,
  /** A collector this near to its emitter is joined to it. */
  joined: 0.3,
  on: 0.5,
  most: 1.1,
  mostDarlington: 2.2,
  /** A switch that is on drops less than this; what is further away was not pulled. */
  pulled: 2.5,
  /** A drive this far from the emitter would turn it on. */
  drive: 2,
  /** Two ends of a fuse, or of a contact. */
  across: 1,
  /** Behind a fuse that is blown less than this share of its rail is left. */
  blown: 0.7,
  /** Of its voltage: a regulated rail above this is not regulated. */
  tooHigh: 1.1,
  /** A regulator with this much more at its input than its output should be has enough; of its voltage it then gives so much. */
  headroom: 2,
  tooLow: 0.85,
  /** Across a junction that conducts there is less; and where only its nets were read. */
  forward: 1.5,
  far: 3,
  /** Of its voltage: what a reference stands at, at least and at most, and what feeds one that does. */
  zener: [0.9, 1.25],
  feeds: 1.05,
  /** A direct voltage behind a capacitor, at least, and how far it may be from what stands before it. */
  through: 0.5,
  throughShare: 0.3,
  /** Across a coil that is on, and across a contact that is open. */
  coil: 3,
  /** A resistor that only limits a current, ohms, and more watts than such a one is made for. */
  fewOhms: 220,
  watts: 0.25,
  /** Two pins of one net. */
  apart: 1,
  /** What two readings of one voltage may differ by, and the same as a share of it. */
  slack: 0.3,
  slackShare: 0.02,
} as const;

/** Nothing of the board was off while it was read: a header without its plug is all of the board still. */
export const isAllThere = ({ apart = [] }: Pick<Reading, "apart">): boolean =>
  apart.every(({ ref, pin }) => pin === undefined && ref !== undefined && /^(?:J|P|CN|CON)\d/i.test(ref));

/** What was read of a board, by its nets. */
export interface Voltages {
  readonly board: Board;
  readonly volts: ReadonlyMap<string, Volt>;
  /** By net: each reading of it. */
  readonly all: ReadonlyMap<string, readonly Volt[]>;
  readonly ctx: LogContext;
  /** Of rails that were read elsewhere in the log, and are off their voltage. */
  readonly rails?: RailVolts | undefined;
}

/** What was read there, at the part's own pin if it was, or what the rail is by name. */
export function voltsAt(
  net: Net | undefined,
  { board, volts, all, rails }: Voltages,
  ref?: string,
): number | undefined {
  if (!net) return undefined;
  const index = boardIndex(board);
  if (index.isGround(net)) return 0;
  const reads = all.get(net.name) ?? [];
  const own = ref === undefined ? undefined : reads.find((one) => one.ref === ref);
  // Of a net that is not one node only the part's own pin tells.
  if (
    !own &&
    ref !== undefined &&
    reads.some((one) => Math.abs(one.volts - (reads[0]?.volts ?? 0)) > STAGE.apart)
  )
    return undefined;
  const read = (own ?? volts.get(net.name))?.volts;
  if (read !== undefined) return read;
  const elsewhere = rails?.[net.name];
  if (elsewhere !== undefined) return elsewhere;
  const rail = index.railOf(net);
  return rail === undefined ? undefined : siValue(board.rails.get(rail)?.nominal ?? "", "V");
}

/** Nets that the part has a pin on. */
export const netsWith = (ref: string, { nets }: Board): Net[] =>
  [...nets.values()].filter(({ pins }) => pins.some((pin) => pin.ref === ref));

/** Voltages that cannot go together while the first of the parts is sound, at these pins of it where they are not all of it. */
export const stageSeen = (
  { reading }: Volt,
  ref: string,
  refs: readonly string[],
  says: string,
  pins?: readonly PinRef[],
): Observation =>
  defined({
    key: `stage ${ref}`.toUpperCase(),
    what: `the voltages at ${ref}`,
    table: reading.table,
    span: reading.cell.span,
    refs: refs.map((one) => one.toUpperCase()),
    finding: defined({
      kind: "sign" as const,
      sign: "stage" as const,
      refs,
      pins,
      of: `the voltages at ${ref}`,
      says,
    }) satisfies SignFinding,
  });
