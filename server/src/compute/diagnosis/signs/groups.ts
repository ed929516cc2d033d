// Lines that fail as a group of numbers: those of one bit of a decoder's number, those of the address lines that one multiplexer
// takes. What all of them share is the one input, and not each line's own parts.
import type { Net } from "../../../knowledge/types";
import { pinRoleOf } from "../around";
import type { BoardModel, PartModel } from "../board-model";
import type { Member } from "../conflict";
import type { ReadNets } from "../read-nets";
import { jointSuspect, partSuspect, trackSuspect } from "../suspects";
import type { SignFinding } from "../types";
import { upstreamOf } from "../upstream";

/** How well each explains it. Common practice, no source. */
const BIT = { before: 0.8, decoder: 0.3, joint: 0.5, track: 0.4, shared: 0.1 } as const;
const GROUP = { chip: 0.4, joint: 0.6, track: 0.4, before: 0.6, line: 0.05 } as const;

/** The one input of the decoder: its joint, the track, and what is before it. */
function decoderBit(
  model: BoardModel,
  { ref = "", pin = "", state = "steady" }: SignFinding,
  read: ReadNets,
): readonly Member[] {
  const part = model.part(ref);
  const net = model.netAt(ref, pin);
  if (!part || !net) return [];
  const shared = neededByOthers(model, part, pin, net, read);
  return [
    { suspect: partSuspect(part.part.ref), weight: BIT.decoder },
    { suspect: jointSuspect(part.part.ref, pin), weight: state === "high" ? BIT.joint : BIT.joint / 10 },
    { suspect: trackSuspect(net.name), weight: BIT.track },
    ...upstreamOf(model, { ref, pin, state }, read)
      .filter(({ suspect }) => suspect.id !== part.part.ref)
      .map((one) => ({
        ...one,
        weight: Math.min(0.9, one.weight * 2 * BIT.before) * (shared.has(one.suspect.id) ? BIT.shared : 1),
      })),
  ];
}

/** What the other bits need as well, and have: the clock of a latch, for one, and not the latch, which may lose one bit. */
function neededByOthers(
  model: BoardModel,
  part: PartModel,
  pin: string,
  net: Net,
  read: ReadNets,
): Set<string> {
  const own = new Set(net.pins.map(({ ref }) => model.part(ref)?.part.ref));
  const table = part.device?.truthTables.find(({ inputs }) => inputs.includes(pin));
  const others = (table?.inputs ?? []).filter((other) => other !== pin);
  return new Set(
    others.flatMap((other) =>
      upstreamOf(model, { ref: part.part.ref, pin: other, state: "steady" }, read).flatMap(({ suspect }) =>
        own.has(suspect.id) ? [] : suspect.id,
      ),
    ),
  );
}

/** What takes several of these lines and hands them on: a multiplexer, and what switches it over. */
function addressGroup(
  model: BoardModel,
  { nets: names = [], refs = [] }: SignFinding,
  read: ReadNets,
): readonly Member[] {
  const nets = names.flatMap((name): Net[] => {
    const net = model.board.nets.get(name);
    return net ? [net] : [];
  });
  const chips = new Set(refs.map((ref) => ref.toUpperCase()));
  const takesAll = (part: PartModel): boolean =>
    nets.every((net) => part.pins.some((one) => one.net === net && pinRoleOf(part, one.pin) === "takes"));
  const handsOn = (part: PartModel): boolean =>
    part.signalPins.some(({ pin }) => pinRoleOf(part, pin) === "drives");
  const parts = [...new Set(nets.flatMap((net) => model.onNet(net)))].filter(
    (part) => !chips.has(part.part.ref.toUpperCase()) && takesAll(part) && handsOn(part),
  );
  return [
    ...nets.map((net) => ({ suspect: trackSuspect(net.name), weight: GROUP.line })),
    ...parts.flatMap((part): Member[] => [
      { suspect: partSuspect(part.part.ref), weight: GROUP.chip },
      ...part.signalPins
        .filter(({ pin, net }) => pinRoleOf(part, pin) === "takes" && !nets.includes(net))
        .flatMap(({ pin, net }): Member[] => [
          { suspect: jointSuspect(part.part.ref, pin), weight: GROUP.joint },
          { suspect: trackSuspect(net.name), weight: GROUP.track },
          ...upstreamOf(model, { ref: part.part.ref, pin, state: "steady" }, read)
            .filter(({ suspect }) => suspect.id !== part.part.ref)
            .map((one) => ({ ...one, weight: one.weight * GROUP.before })),
        ]),
    ]),
  ];
}

export const GROUP_SIGNS = { "decoder-bit": decoderBit, "address-group": addressGroup };
