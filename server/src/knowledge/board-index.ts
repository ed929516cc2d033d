import { memo } from "../base/memo";
import { parseQuantity } from "../quantity/quantity";
import type { Board, Net, Part } from "./types";

/** Look-ups in a board that its file does not give directly. */
export interface BoardIndex {
  part(ref: string): Part | undefined;
  net(ref: string, pin: string): Net | undefined;
  /** The rail a net carries, where it is one. */
  railOf(net: Net): string | undefined;
  /** Volts of a rail by its name, where its nominal voltage can be read. */
  voltsOf(rail: string): number | undefined;
  isGround(net: Net): boolean;
}

/** Finds parts, nets and rails of a board, designators and pins in any case. Made once for a board. */
export const boardIndex = memo((board: Board): BoardIndex => {
  const parts = new Map([...board.parts.values()].map((part) => [part.ref.toUpperCase(), part]));
  const nets = new Map<string, Net>();
  for (const net of board.nets.values()) {
    for (const { ref, pin } of net.pins) nets.set(pinKey(ref, pin), net);
  }
  const rails = new Map<string, string>();
  for (const rail of board.rails.values()) if (rail.net) rails.set(rail.net, rail.name);
  const volts = new Map<string, number>();
  for (const { name, nominal } of board.rails.values()) {
    const read = parseQuantity(nominal, { unit: "V" });
    if (read.ok && read.quantity.dimension === "voltage") volts.set(name, read.quantity.value);
  }
  const grounds = new Set(board.grounds);
  return {
    part: (ref) => parts.get(ref.toUpperCase()),
    net: (ref, pin) => nets.get(pinKey(ref, pin)),
    railOf: (net) => rails.get(net.name),
    voltsOf: (rail) => volts.get(rail),
    isGround: (net) => grounds.has(net.name),
  };
});

/** A pin by which maps know it: "U5.4", whatever case it is typed in. */
export const pinKey = (ref: string, pin: string): string => `${ref.toUpperCase()}.${pin.toUpperCase()}`;
