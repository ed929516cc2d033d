// What hangs by resistors on a rail that is dead stands at nothing with it: its divider and its reference tell no part to hold the
// rail down.
import type { Net } from "../../../knowledge/types";
import type { BoardModel } from "../board-model";
import type { ReadNets } from "../read-nets";

const MOST_NETS = 40;

/**
 * What was read, with the nodes behind the rail's resistors taken for being as the rail leaves them.
 * @param net of the rail, which reads next to nothing
 */
export function withDeadRail(model: BoardModel, net: Net | undefined, read: ReadNets): ReadNets {
  const nets = net ? [net] : [];
  for (let i = 0; i < nets.length && i < MOST_NETS; i += 1)
    for (const part of model.onNet(nets[i]!)) {
      if (part.kind !== "resistor") continue;
      for (const { net: next } of part.pins)
        if (
          !nets.includes(next) &&
          !model.isSupply(next) &&
          !model.isGround(next) &&
          !isFed(model, next, net)
        )
          nets.push(next);
    }
  return { ...read, right: new Set([...read.right, ...nets.slice(1).map(({ name }) => name)]) };
}

/** Another supply leads to it by a resistor as well. */
const isFed = (model: BoardModel, net: Net, dead: Net | undefined): boolean =>
  model
    .onNet(net)
    .some(
      ({ kind, pins }) =>
        kind === "resistor" &&
        pins.some((pin) => pin.net !== dead && model.isSupply(pin.net) && !model.isGround(pin.net)),
    );
