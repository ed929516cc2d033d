// The other end of a part with two leads, or of the element of a network.

import { dipPins } from "../../../compute/diagnosis/around";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Net, PinRef } from "../../../knowledge/types";

/** Undefined where the part has more ends than two and is no network. */
export function otherEndOf({ ref, pin }: PinRef, from: Net, board: Board): Net | undefined {
  const index = boardIndex(board);
  const part = index.part(ref);
  if (/^RN\d/i.test(ref) && pin !== "1") {
    const all = dipPins(`${part?.package ?? ""} ${part?.value ?? ""}`);
    if (all === undefined) return index.net(ref, "1");
    return index.net(ref, String((all || pinsOf(ref, board)) + 1 - Number(pin)));
  }
  const others = [...board.nets.values()].filter(
    (net) => net !== from && net.pins.some((one) => one.ref === ref),
  );
  return others.length === 1 ? others[0] : undefined;
}

const pinsOf = (ref: string, { nets }: Board): number =>
  [...nets.values()].reduce((sum, { pins }) => sum + pins.filter((one) => one.ref === ref).length, 0);
