// A node that only a resistor decides, and that does not stand where the resistor puts it: the resistor or its joints, or what
// holds the node though nothing tells it to.

import type { Net } from "../../../knowledge/types";
import { otherEnds, pinRoleOf, tiedTo } from "../around";
import type { BoardModel, PartModel } from "../board-model";
import type { Member } from "../conflict";
import { isPotentiometer } from "../potentiometer";
import type { ReadNets } from "../read-nets";
import { UNSHORTED } from "../strength";
import { jointSuspect, partSuspect, trackSuspect } from "../suspects";
import type { SignFinding } from "../types";
import { upstreamOf } from "../upstream";
import { withDeadRail } from "./dead-rail";

/** How well each explains a node that stands low, or at no level. Common practice, no source. */
const LOW = {
  open: 0.6,
  joint: 0.3,
  contact: 0.5,
  stuck: 0.5,
  letsGo: 0.5,
  short: 0.4,
  input: 0.12,
  header: 0.05,
  track: 0.15,
};
const BETWEEN = {
  open: 0.8,
  joint: 0.45,
  contact: 0.1,
  stuck: 0.1,
  letsGo: 0.02,
  short: 0.06,
  input: 0.05,
  header: 0.03,
  track: 0.1,
};
/** It stands where an open input of bipolar logic lifts it: nothing pulls there, either way. */
const FLOATS = {
  open: 0.85,
  joint: 0.5,
  contact: 0.02,
  stuck: 0.05,
  letsGo: 0.01,
  short: 0.01,
  input: 0.05,
  header: 0.02,
  track: 0.12,
};
/** The same for a node that resistors and inputs alone decide: off to the low side, somewhere in between, to the high side. */
const DIVIDED = {
  low: { ...LOW, open: 0.7, joint: 0.4, input: 0.03, track: 0.1 },
  between: { ...BETWEEN, open: 0.7, joint: 0.3, input: 0.03, short: 0.1 },
  high: { ...BETWEEN, input: 0.01, short: 0.02 },
} as const;
/** What is left of a resistor that measured right. */
const MEASURED = 0.1;
/** Of one of many elements, whose others may be what was measured. */
const ONE_OF_MANY = 0.5;

/** What is left of a transistor whose emitter is on no ground, and of one whose emitter was seen elsewhere. Common practice, no source. */
const HELD = { unread: 0.08, moves: 0.03 } as const;

const SHORTS: ReadonlySet<string> = new Set(["capacitor", "electrolytic", "diode", "transistor"]);

/** Its other lead is on a rail: shorted, it would lift the node and not hold it down. */
const leadsUp = (model: BoardModel, part: PartModel, pin: string): boolean =>
  part.pins.length === 2 && otherEnds(part, pin).some(({ net }) => tiedTo(model, net) === "rail");

/** Shorted, the base of a transistor follows its emitter: where that is driven, or was seen to move, it is no ground. */
function heldBy(model: BoardModel, part: PartModel, pin: string, read: ReadNets): number {
  if (part.kind !== "transistor" || pinRoleOf(part, pin) !== "base") return 1;
  const emitter = part.pins.find((one) => pinRoleOf(part, one.pin) === "emitter")?.net;
  if (!emitter || model.isGround(emitter)) return 1;
  const level = read.levels.get(emitter.name);
  return level === "low" || level === undefined ? HELD.unread : HELD.moves;
}

function pulled(model: BoardModel, finding: SignFinding, read: ReadNets): readonly Member[] {
  const { nets = [], pins = [], state, sign } = finding;
  const by =
    sign === "divided"
      ? DIVIDED[state === "high" || state === "low" ? state : "between"]
      : state === "floating"
        ? FLOATS
        : state === "between"
          ? BETWEEN
          : LOW;
  const sound = (ref: string): number => (read.measured.has(ref.toUpperCase()) ? MEASURED : 1);
  const isPull = (ref: string, pin: string): boolean =>
    pins.some((one) => one.ref === ref && one.pin === pin);
  return nets.flatMap((name) => {
    const net = model.board.nets.get(name);
    if (!net) return [];
    // With a header and a network on it nothing else drives it: the port is there to read.
    const hasSwitch =
      model.onNet(net).some(({ kind }) => kind === "switch") ||
      (state === "between" && model.onNet(net).some(({ kind }) => kind === "connector"));
    const drivers = net.pins.flatMap((at) => {
      const one = model.part(at.ref);
      const role = one && pinRoleOf(one, at.pin);
      return role === "drives" || role === "collector" ? [at.ref] : [];
    });
    // What is shorted with the power off as well would have shown then.
    const short = read.nets.has(net.name) ? UNSHORTED : 1;
    return [
      { suspect: trackSuspect(net.name), weight: by.track },
      ...net.pins.flatMap(({ ref, pin }): Member[] => {
        const part = model.part(ref);
        if (!part) return [];
        const suspect = partSuspect(part.part.ref);
        if (isPull(ref, pin)) {
          const isNetwork = part.kind === "resistor-network";
          const left = !read.measured.has(ref.toUpperCase()) ? 1 : isNetwork ? ONE_OF_MANY : MEASURED;
          return [
            { suspect, weight: by.open * left },
            ...part.pins
              .filter((one) => one.pin === pin || !isNetwork || one.pin === "1")
              .map((one) => ({ suspect: jointSuspect(part.part.ref, one.pin), weight: by.joint })),
          ];
        }
        const known = part.device?.pins.get(pin)?.direction;
        const isRead = hasSwitch || drivers.some((driver) => driver !== ref);
        const direction = known === "bidirectional" && isRead ? "input" : known;
        const weight =
          part.kind === "switch"
            ? by.contact
            : part.kind === "connector"
              ? by.header
              : SHORTS.has(part.kind)
                ? by.short *
                  short *
                  sound(ref) *
                  (leadsUp(model, part, pin) ? 0 : heldBy(model, part, pin, read))
                : direction === "input"
                  ? by.input * short
                  : direction === undefined
                    ? 0
                    : direction === "open-collector"
                      ? by.letsGo
                      : by.stuck;
        return [{ suspect, weight }];
      }),
    ];
  });
}

/** Of the transistor itself, and of its joint there, where the base is not driven. */
const UNDRIVEN = { itself: 0.05, joint: 0.15 } as const;

/** What should drive a base, and does not; a part there that measured right by itself hardly keeps it from that. */
function undriven(model: BoardModel, finding: SignFinding, read: ReadNets): readonly Member[] {
  const { ref = "", pin = "", state = "low", rail, dead } = finding;
  const net = model.board.nets.get(model.board.rails.get(rail ?? "")?.net ?? "");
  const known = dead ? withDeadRail(model, net, read) : read;
  return [
    ...upstreamOf(model, { ref, pin, state }, known).flatMap((one): Member[] => {
      const { suspect, weight } = one;
      if (suspect.kind !== "part") return [one];
      if (suspect.ref === ref) return [{ suspect, weight: UNDRIVEN.itself }];
      return [{ suspect, weight: read.measured.has(suspect.ref.toUpperCase()) ? weight * MEASURED : weight }];
    }),
    { suspect: jointSuspect(ref, pin), weight: UNDRIVEN.joint },
  ];
}

/** How well each explains that a rail reads too many ohms to ground. Common practice, no source. */
const LOOSE = { resistor: 0.6, wiper: 0.6, joint: 0.35, track: 0.1 } as const;
const LOOSE_NODES = 30;

/** Resistors by which a rail leads to ground, alone or one behind the other, and what stands between them. */
function railLoose(model: BoardModel, { rail }: SignFinding, read: ReadNets): readonly Member[] {
  const start = model.board.nets.get(model.board.rails.get(rail ?? "")?.net ?? "");
  if (!start) return [];
  const nets = [start];
  const ways: { readonly from: Net; readonly part: PartModel; readonly to: Net }[] = [];
  for (let i = 0; i < nets.length && i < LOOSE_NODES; i += 1) {
    const from = nets[i]!;
    for (const part of model.onNet(from)) {
      if (part.kind !== "resistor") continue;
      for (const { net: to } of part.pins) {
        // What leads to another supply is no way to ground.
        if (to === from || (model.isSupply(to) && !model.isGround(to))) continue;
        ways.push({ from, part, to });
        if (!model.isGround(to) && !nets.includes(to)) nets.push(to);
      }
    }
  }
  const grounded = new Set<Net>();
  for (let known = -1; known < grounded.size; ) {
    known = grounded.size;
    for (const { from, to } of ways) if (model.isGround(to) || grounded.has(to)) grounded.add(from);
  }
  const parts = new Set(
    ways.flatMap(({ part, to }) => (to !== start && (model.isGround(to) || grounded.has(to)) ? part : [])),
  );
  return [
    ...[...parts].flatMap((part): Member[] => {
      const left = read.measured.has(part.part.ref.toUpperCase()) ? MEASURED : 1;
      const weight = isPotentiometer(part) ? LOOSE.wiper : LOOSE.resistor;
      return [
        { suspect: partSuspect(part.part.ref), weight: weight * left },
        ...part.pins.map(({ pin }) => ({ suspect: jointSuspect(part.part.ref, pin), weight: LOOSE.joint })),
      ];
    }),
    ...[...grounded].flatMap((net): Member[] =>
      net === start ? [] : [{ suspect: trackSuspect(net.name), weight: LOOSE.track }],
    ),
  ];
}

export const PULLED_SIGNS = {
  pulled,
  "pulled-all-along": pulled,
  divided: pulled,
  undriven,
  "rail-loose": railLoose,
};
