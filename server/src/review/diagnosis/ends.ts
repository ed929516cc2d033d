// The other end of a part with two leads, or of the element of a network.

import { boardIndex } from "../../knowledge/board-index";
import type { Board, Net, PinRef } from "../../knowledge/types";

/** Undefined where the part has more ends than two and is no network. */
export function otherEndOf({ ref, pin }: PinRef, from: Net, board: Board): Net | undefined {
  const index = boardIndex(board);
  const part = index.part(ref);
  if (/^RN\d/i.test(ref) && pin !== "1") {
    const across = /DIP/i.test(`${part?.package ?? ""} ${part?.value ?? ""}`);
    return across ? index.net(ref, String(pinsOf(ref, board) + 1 - Number(pin))) : index.net(ref, "1");
  }
  const others = [...board.nets.values()].filter(
    (net) => net !== from && net.pins.some((one) => one.ref === ref),
  );
  return others.length === 1 ? others[0] : undefined;
}

const pinsOf = (ref: string, { nets }: Board): number =>
  [...nets.values()].reduce((sum, { pins }) => sum + pins.filter((one) => one.ref === ref).length, 0);
