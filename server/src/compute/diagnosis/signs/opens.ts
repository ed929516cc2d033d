// Nets that are not one node, or that are two: opens found along a net or by the beeper, and bridges.
import type { Net, PinRef } from "../../../knowledge/types";
import type { BoardModel, PartModel } from "../board-model";
import type { Member } from "../conflict";
import { blew, FUSE } from "../fuses";
import type { ReadNets } from "../read-nets";
import type { SignId } from "../strength";
import { bridgeSuspect, jointSuspect, partSuspect, trackSuspect } from "../suspects";
import type { SignFinding } from "../types";

/** No fault inside a chip opens the copper between its legs and another's. */
const OPEN = {
  track: 0.8,
  /** Ground and rails are many tracks, of which one ends at each pin. */
  supplyTrack: 0.05,
  joint: 0.75,
  otherJoint: 0.1,
  chip: 0.01,
  rung: 0.004,
} as const;
const ACROSS = { part: 0.85, track: 0.4, joint: 0.3 } as const;
/**
 * Two leads of a small part short now and then, two signal pins of a chip hardly ever: that is solder, or dirt at a header.
 * A pin to ground or to a supply is what a chip shorts as well.
 */
const BRIDGE = {
  itself: 0.95,
  small: 0.3,
  smallToSupply: 0.8,
  chip: 0.005,
  chipToSupply: 0.02,
  header: 0.03,
} as const;
const SMALL_LEADS = 3;

const netsOf = (model: BoardModel, names: readonly string[] = []): Net[] =>
  names.flatMap((name) => model.board.nets.get(name) ?? []);

/** Open across a fuse or a closed contact: that before the copper on both sides. */
function across(
  model: BoardModel,
  { refs = [], nets, pins = [] }: SignFinding,
  read: ReadNets,
): readonly Member[] {
  const parts = refs.flatMap((ref) => model.part(ref) ?? []);
  // Of a bank the contact that was rung.
  const isRung = (ref: string, pin: string): boolean =>
    !pins.some((one) => one.ref === ref) || pins.some((one) => one.ref === ref && one.pin === pin);
  const own = parts.flatMap(({ part, pins: all }) =>
    all
      .filter(({ net, pin }) => nets?.includes(net.name) && isRung(part.ref, pin))
      .map(({ pin }) => ({ suspect: jointSuspect(part.ref, pin), weight: ACROSS.joint })),
  );
  return [
    ...parts.flatMap((part): Member[] =>
      part.kind === "fuse"
        ? [{ suspect: partSuspect(part.part.ref), weight: FUSE.itself }, ...blew(model, part, read)]
        : [{ suspect: partSuspect(part.part.ref), weight: ACROSS.part }],
    ),
    ...own,
    ...netsOf(model, nets).map(({ name }) => ({ suspect: trackSuspect(name), weight: ACROSS.track })),
    ...pins.map(({ ref, pin }) => ({ suspect: jointSuspect(ref, pin), weight: ACROSS.joint })),
  ];
}

/** Two places of one net that are not one: nothing inside a part makes that. */
const OF_COPPER: ReadonlySet<string> = new Set<SignId>(["continuity-open", "volts-apart"]);

function open(model: BoardModel, finding: SignFinding, read: ReadNets): readonly Member[] {
  const { nets, pins = [], others = [], refs = [] } = finding;
  if (refs.length > 0) return across(model, finding, read);
  const joints = (list: readonly PinRef[], weight: number): Member[] =>
    list.flatMap(({ ref, pin }) => {
      const part = model.part(ref);
      return part ? [{ suspect: jointSuspect(part.part.ref, pin), weight }] : [];
    });
  return [
    ...netsOf(model, nets).map((net) => ({
      suspect: trackSuspect(net.name),
      // With both ends joined to others there is nothing but the copper between.
      weight: model.isSupply(net) && pins.length > 0 ? OPEN.supplyTrack : OPEN.track,
    })),
    ...joints(pins, OPEN.joint / Math.max(1, pins.length)),
    ...joints(others, others.length === 1 && pins.length > 1 ? OPEN.joint : OPEN.otherJoint),
    ...pins.flatMap(({ ref, pin }): Member[] => {
      const part = model.part(ref);
      const net = model.netAt(ref, pin);
      // Nothing inside a part takes its own leg off a rail.
      const isOfRail = net !== undefined && model.isSupply(net);
      const weight = OF_COPPER.has(finding.sign) || isOfRail ? OPEN.rung : OPEN.chip;
      return part ? [{ suspect: partSuspect(part.part.ref), weight }] : [];
    }),
  ];
}

/**
 * What joins each two of the nets, and what has a pin on both; of a net and a supply whatever could hold it there.
 * @param off designators in capitals of what was not there
 */
export function bridged(
  model: BoardModel,
  names: readonly string[] = [],
  off: readonly string[] = [],
): readonly Member[] {
  const nets = netsOf(model, names);
  const [first, ...rest] = nets;
  if (!first || rest.length === 0) return [];
  const both = model
    .onNet(first)
    .filter(
      (part) =>
        !off.includes(part.part.ref.toUpperCase()) && rest.every((net) => model.onNet(net).includes(part)),
    );
  const toSupply = nets.some((net) => model.isSupply(net));
  return [
    ...nets.flatMap((one, i) =>
      nets.slice(i + 1).map((other) => ({
        suspect: bridgeSuspect(one.name, other.name),
        weight: BRIDGE.itself,
      })),
    ),
    ...both.map((part) => ({ suspect: partSuspect(part.part.ref), weight: acrossBoth(part, toSupply) })),
  ];
}

const acrossBoth = ({ kind, pins }: PartModel, toSupply: boolean): number =>
  kind === "connector"
    ? BRIDGE.header
    : kind === "resistor" || kind === "resistor-network" || kind === "test-point"
      ? BRIDGE.chip / 2
      : pins.length <= SMALL_LEADS
        ? toSupply
          ? BRIDGE.smallToSupply
          : BRIDGE.small
        : toSupply
          ? BRIDGE.chipToSupply
          : BRIDGE.chip;

/** How well each explains that all lines of a network hang in the air. Common practice, no source. */
const AFLOAT = { joint: 0.8, network: 0.5, track: 0.05 } as const;

/** The leg that a network's resistors share, the network, and what leads there. */
function afloat(model: BoardModel, { pins = [] }: SignFinding): readonly Member[] {
  return pins.flatMap(({ ref, pin }): Member[] => {
    const part = model.part(ref);
    const net = model.netAt(ref, pin);
    if (!part) return [];
    return [
      { suspect: jointSuspect(part.part.ref, pin), weight: AFLOAT.joint },
      { suspect: partSuspect(part.part.ref), weight: AFLOAT.network },
      ...(net ? [{ suspect: trackSuspect(net.name), weight: AFLOAT.track }] : []),
    ];
  });
}

export const OPEN_SIGNS = {
  "lines-afloat": afloat,
  "net-open": open,
  "volts-apart": open,
  "moves-apart": open,
  "continuity-open": open,
  "continuity-short": (model: BoardModel, { nets, off }: SignFinding) => bridged(model, nets, off),
};
