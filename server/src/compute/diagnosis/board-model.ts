import { defined } from "../../base/defined";
import { memo } from "../../base/memo";
import { boardIndex, pinKey } from "../../knowledge/board-index";
import type { Board, Device, Net, Part, PinDirection } from "../../knowledge/types";
import { type PartKind, partKind } from "./part-kind";

/** A part with what the diagnosis asks of it, worked out once. */
export interface PartModel {
  readonly part: Part;
  readonly device?: Device;
  readonly kind: PartKind;
  /** Its pins on nets that are neither ground nor a rail, in the order of the board's nets. */
  readonly signalPins: readonly { readonly pin: string; readonly net: Net }[];
  /** Every pin of it that is on a net, in the order of the board's nets. */
  readonly pins: readonly { readonly pin: string; readonly net: Net }[];
}

/** A board as the diagnosis walks over it: parts with their devices, and what is on which net. */
export interface BoardModel {
  readonly board: Board;
  /** By designator in capitals. */
  readonly parts: ReadonlyMap<string, PartModel>;
  part(ref: string): PartModel | undefined;
  netAt(ref: string, pin: string): Net | undefined;
  /** True where one of the part's signal pins is on the net. */
  isOn(part: PartModel, net: Net): boolean;
  isSupply(net: Net): boolean;
  isGround(net: Net): boolean;
  /** The fuse between the net and a rail; undefined of a rail itself and of what no fuse feeds. */
  fuseOf(net: Net): PartModel | undefined;
  /** Parts on a net, each once, in the net's order; designators the board does not list are left out. */
  onNet(net: Net): readonly PartModel[];
}

/** Look-ups in a board; kept as long as board and library stay the same objects. */
export const boardModel = memo(build);

function build(board: Board, deviceOf: (part: string) => Device | undefined): BoardModel {
  const index = boardIndex(board);
  const isSupply = (net: Net): boolean => index.isGround(net) || index.railOf(net) !== undefined;
  const signal = new Map<string, { pin: string; net: Net }[]>();
  const every = new Map<string, { pin: string; net: Net }[]>();
  for (const net of board.nets.values()) {
    const supplies = isSupply(net);
    for (const { ref, pin } of net.pins) {
      const key = ref.toUpperCase();
      const all = every.get(key);
      if (all) all.push({ pin, net });
      else every.set(key, [{ pin, net }]);
      if (supplies) continue;
      const list = signal.get(key);
      if (list) list.push({ pin, net });
      else signal.set(key, [{ pin, net }]);
    }
  }
  const parts = new Map<string, PartModel>();
  const alone = new Map<string, Net>();
  for (const part of board.parts.values()) {
    const key = part.ref.toUpperCase();
    const device = part.device === undefined ? undefined : deviceOf(part.device);
    const signalPins = signal.get(key) ?? (device ? ownPins(part.ref, device) : []);
    if (!signal.has(key)) for (const { pin, net } of signalPins) alone.set(pinKey(part.ref, pin), net);
    parts.set(
      key,
      defined({
        part,
        device,
        kind: partKind(part, device),
        signalPins,
        pins: every.get(key) ?? signalPins,
      }),
    );
  }
  const members = new Map<Net, readonly PartModel[]>();
  const onNet = (net: Net): readonly PartModel[] => {
    let found = members.get(net);
    if (!found) {
      const refs = new Set(net.pins.map(({ ref }) => ref.toUpperCase()));
      found = [...refs].flatMap((ref) => parts.get(ref) ?? []);
      members.set(net, found);
    }
    return found;
  };
  const nets = new Map<PartModel, ReadonlySet<Net>>();
  const isOn = (part: PartModel, net: Net): boolean => {
    let own = nets.get(part);
    if (!own) {
      own = new Set(part.signalPins.map((pin) => pin.net));
      nets.set(part, own);
    }
    return own.has(net);
  };
  const fuses = new Map<Net, PartModel>();
  for (const part of parts.values()) {
    const ends = part.kind === "fuse" ? new Set(part.pins.map(({ net }) => net)) : undefined;
    if (!ends || ![...ends].some((net) => isSupply(net) && !index.isGround(net))) continue;
    for (const net of ends) if (!isSupply(net)) fuses.set(net, part);
  }
  return {
    board,
    parts,
    fuseOf: (net) => fuses.get(net),
    // Nearly always asked for as the board writes it.
    part: (ref) => parts.get(ref) ?? parts.get(ref.toUpperCase()),
    isOn,
    // Of a chip that nobody has traced each pin is a node of its own.
    netAt: (ref, pin) => index.net(ref, pin) ?? alone.get(pinKey(ref, pin)),
    isSupply,
    isGround: index.isGround,
    onNet,
  };
}

/** Pins that say something of their chip; each a node of its own, by the chip and the pin's name: "U5.1A". */
function ownPins(ref: string, { pins }: Device): { pin: string; net: Net }[] {
  const all = [...pins.values()].filter(({ direction }) => SIGNALS.has(direction));
  return all.map(({ number, name }) => {
    const isOwn = all.filter((other) => other.name === name).length === 1;
    return { pin: number, net: { name: `${ref}.${isOwn ? name : number}`, pins: [{ ref, pin: number }] } };
  });
}

const SIGNALS: ReadonlySet<PinDirection> = new Set<PinDirection>([
  ...(["input", "output", "bidirectional", "three-state", "open-collector", "open-emitter"] as const),
]);
