import type { Board, Device, Net, Part } from "../../knowledge/types";
import { boardIndex } from "../board-index";
import { type PartKind, partKind } from "./part-kind";

/** A part with what the diagnosis asks of it, worked out once. */
export interface PartModel {
  readonly part: Part;
  readonly device?: Device;
  readonly kind: PartKind;
  /** Its pins on nets that are neither ground nor a rail, in the order of the board's nets. */
  readonly signalPins: readonly { readonly pin: string; readonly net: Net }[];
}

export interface BoardModel {
  readonly board: Board;
  /** By designator in capitals. */
  readonly parts: ReadonlyMap<string, PartModel>;
  part(ref: string): PartModel | undefined;
  netAt(ref: string, pin: string): Net | undefined;
  /** True where one of the part's signal pins is on the net. */
  isOn(part: PartModel, net: Net): boolean;
  isSupply(net: Net): boolean;
  /** Parts on a net, each once, in the net's order; designators the board does not list are left out. */
  onNet(net: Net): readonly PartModel[];
}

const models = new WeakMap<
  Board,
  { readonly deviceOf: (part: string) => Device | undefined; readonly model: BoardModel }
>();

/** Look-ups in a board; kept as long as board and library stay the same objects. */
export function boardModel(board: Board, deviceOf: (part: string) => Device | undefined): BoardModel {
  const kept = models.get(board);
  if (kept?.deviceOf === deviceOf) return kept.model;
  const model = build(board, deviceOf);
  models.set(board, { deviceOf, model });
  return model;
}

function build(board: Board, deviceOf: (part: string) => Device | undefined): BoardModel {
  const index = boardIndex(board);
  const isSupply = (net: Net): boolean => index.isGround(net) || index.railOf(net) !== undefined;
  const signal = new Map<string, { pin: string; net: Net }[]>();
  for (const net of board.nets.values()) {
    if (isSupply(net)) continue;
    for (const { ref, pin } of net.pins) {
      const key = ref.toUpperCase();
      const list = signal.get(key);
      if (list) list.push({ pin, net });
      else signal.set(key, [{ pin, net }]);
    }
  }
  const parts = new Map<string, PartModel>();
  for (const part of board.parts.values()) {
    const key = part.ref.toUpperCase();
    const device = part.device === undefined ? undefined : deviceOf(part.device);
    parts.set(key, {
      part,
      ...(device ? { device } : {}),
      kind: partKind(part, device),
      signalPins: signal.get(key) ?? [],
    });
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
  return {
    board,
    parts,
    // Nearly always asked for as the board writes it.
    part: (ref) => parts.get(ref) ?? parts.get(ref.toUpperCase()),
    isOn,
    netAt: (ref, pin) => index.net(ref, pin),
    isSupply,
    onNet,
  };
}
