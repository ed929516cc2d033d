// Nodes that were seen to be right, and those that must be for them to be: what drives them does its work.
import type { Net } from "../../knowledge/types";
import { drivesAt, needs, otherEnds, pinRoleOf } from "./around";
import type { BoardModel, PartModel } from "./board-model";
import type { ReadNets } from "./read-nets";

const MOST_NODES = 200;

/** Nets on the other side of the resistors at a base, which are no supply. */
const drivesOf = (model: BoardModel, base: Net): readonly Net[] =>
  base.pins.flatMap(({ ref, pin }) => {
    const part = model.part(ref);
    return part?.kind === "resistor"
      ? otherEnds(part, pin).flatMap(({ net }) => (model.isSupply(net) ? [] : [net]))
      : [];
  });

/**
 * Every node that was read and is right, and what its drivers need.
 * @param asked the nodes were asked for, so that a transistor which is on does right
 */
export function working(model: BoardModel, read: ReadNets, asked = false): ReadonlySet<Net> {
  const queue: Net[] = [...model.board.nets.values()].filter(
    ({ name }) =>
      read.right.has(name) || read.levels.get(name) === "pulsing" || (asked && read.conducting.has(name)),
  );
  const seen = new Set<Net>(queue);
  const go = (net: Net | undefined): void => {
    if (!net || seen.has(net) || model.isSupply(net)) return;
    seen.add(net);
    queue.push(net);
  };
  for (let i = 0; i < queue.length && i < MOST_NODES; i += 1) {
    for (const { ref, pin } of queue[i]!.pins) {
      const part = model.part(ref);
      const role = part && pinRoleOf(part, pin);
      if (!part || (role !== "collector" && !drivesAt(model.part, queue[i]!, part, pin))) continue;
      if (role === "collector") {
        const base = part.pins.find((one) => pinRoleOf(part, one.pin) === "base")?.net;
        go(base);
        for (const net of base ? drivesOf(model, base) : []) go(net);
      } else for (const need of needs(part, pin, "steady")) go(need.net);
    }
  }
  return seen;
}

const LEADS: ReadonlySet<string> = new Set(["resistor", "diode", "capacitor"]);

/** The same with what leads to it, through resistors, diodes and capacitors, where nothing else drives it. */
export function fedFrom(model: BoardModel, read: ReadNets): ReadonlySet<Net> {
  const queue = [...working(model, read)];
  const seen = new Set(queue);
  for (let i = 0; i < queue.length && i < MOST_NODES; i += 1) {
    const net = queue[i]!;
    const parts = net.pins.flatMap(({ ref, pin }) => {
      const part = model.part(ref);
      return part ? [{ part, pin }] : [];
    });
    if (parts.some(({ part, pin }) => drivesAt(model.part, net, part, pin))) continue;
    for (const { part, pin } of parts) {
      const leads = part.pins.length === 2 && LEADS.has(part.kind);
      for (const end of leads ? otherEnds(part, pin) : [])
        if (!seen.has(end.net) && !model.isSupply(end.net)) {
          seen.add(end.net);
          queue.push(end.net);
        }
    }
  }
  return seen;
}

/** Another output of it, read at the leg, moves: it is fed. */
export const isSeenToMove = (part: PartModel, { pinLevels }: ReadNets): boolean =>
  part.signalPins.some(
    ({ pin }) =>
      ["drives", "may-drive"].includes(pinRoleOf(part, pin)) &&
      pinLevels.get(`${part.part.ref}.${pin}`.toUpperCase()) === "pulsing",
  );
