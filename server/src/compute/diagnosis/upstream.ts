// What may bring a node to where it wrongly stands: its driver, what pulls it, and the same of what is before them, until
// a node that was read and is right.
import type { Net } from "../../knowledge/types";
import { isDescribed, isPnp, needs, opposite, otherEnds, pinRoleOf, powerPins, tiedTo } from "./around";
import type { BoardModel, PartModel } from "./board-model";
import { type Member, membersOf } from "./conflict";
import { isPotentiometer } from "./potentiometer";
import type { ReadNets } from "./read-nets";
import {
  AT_DRIVER,
  EFFECT,
  LEAST_EFFECT,
  MOST_NODES,
  MOST_STAGES,
  PASSED_ON,
  PER_STAGE,
  READ_OTHERWISE,
  THROUGH_UNKNOWN,
  UNSHORTED,
  type WrongState,
} from "./strength";
import { jointSuspect, partSuspect, trackSuspect } from "./suspects";
import { isSeenToMove } from "./working";

/** What is left of a capacitor whose node was seen at its supply: it may still be open. */
const CHARGED = 0.25;

interface Node {
  /** Number of the node whose cause it would be. */
  readonly parent?: number;
  readonly net: Net;
  readonly state: WrongState;
  readonly left: number;
  readonly stage: number;
  /** Where a resistor and a capacitor set a time. */
  readonly timing?: boolean;
  /** Where it was read, or the pin that looks at it. */
  readonly from?: { readonly ref: string; readonly pin: string };
}

/** Members in the order they were met, each suspect once. */
export function upstreamOf(
  model: BoardModel,
  start: { readonly ref: string; readonly pin: string; readonly state: WrongState },
  read: ReadNets,
): Member[] {
  const net = model.netAt(start.ref, start.pin);
  /** By node: what stands on it. */
  const found: Member[][] = [];
  const part = model.part(start.ref);
  if (!net) return part ? [{ suspect: partSuspect(part.part.ref), weight: EFFECT.driver[start.state] }] : [];
  const nodes: Node[] = [{ net, state: start.state, left: 1, stage: 0, from: start }];
  const seen = new Set<Net>([net]);
  for (let i = 0; i < nodes.length && i < MOST_NODES; i += 1) {
    const node = nodes[i]!;
    const own: Member[] = [];
    found.push(own);
    for (const next of causesAt(model, node, read, own)) {
      if (seen.has(next.net) || next.left < LEAST_EFFECT || next.stage > MOST_STAGES) continue;
      if (model.isSupply(next.net)) continue;
      const left = next.left * agreement(next, read);
      if (left < LEAST_EFFECT) continue;
      seen.add(next.net);
      nodes.push({ ...next, left, parent: i });
    }
  }
  // What was read and stands where it makes all behind it do what they do takes the blame off that.
  const passed = new Set<number>();
  for (const node of nodes) {
    if (node.parent === undefined || !isSo(node, read)) continue;
    for (let at: number | undefined = node.parent; at !== undefined; at = nodes[at]!.parent) passed.add(at);
  }
  const members = found.flatMap((own, i) =>
    passed.has(i) ? own.map(({ suspect, weight }) => ({ suspect, weight: weight * PASSED_ON })) : own,
  );
  return membersOf(members).filter(({ weight }) => weight >= LEAST_EFFECT / 4);
}

/** Read, and standing as the cause would have it. */
function isSo({ net, state }: Pick<Node, "net" | "state">, { levels, right }: ReadNets): boolean {
  const was = levels.get(net.name);
  if (was === undefined || right.has(net.name)) return false;
  return state === "steady" ? was === "low" || was === "high" : was === state;
}

/** What was read at a node speaks for a cause beyond it, or against it. */
function agreement({ net, state }: Node, { levels, right, split }: ReadNets): number {
  if (split.has(net.name)) return 1;
  const was = levels.get(net.name);
  if (right.has(net.name)) return READ_OTHERWISE;
  if (was === undefined || state === "between") return 1;
  if (was === state || was === "floating") return 1;
  if (was === "pulsing") return READ_OTHERWISE;
  return state === "steady" || state === "floating" ? 1 : READ_OTHERWISE;
}

/** Adds what stands on the node to `found`, and gives the nodes before it. */
function causesAt(model: BoardModel, node: Node, read: ReadNets, found: Member[]): Node[] {
  const { net, state, left, stage, from, timing = false } = node;
  const next: Node[] = [];
  const add = (ref: string, weight: number) =>
    found.push({ suspect: partSuspect(ref), weight: weight * left });
  const joint = (ref: string, pin: string, weight: number) =>
    found.push({ suspect: jointSuspect(ref, pin), weight: weight * left });
  const go = (
    to: Net,
    wanted: WrongState,
    share: number,
    through?: { ref: string; pin: string; timing?: boolean },
  ) =>
    next.push({
      net: to,
      state: wanted,
      left: left * share * PER_STAGE,
      stage: stage + 1,
      ...(through ? { from: through } : {}),
      // A resistor in between leads to the other end of the same time.
      ...(through?.timing || (timing && through === undefined) ? { timing: true } : {}),
    });
  const isFrom = (ref: string, pin: string): boolean =>
    from?.ref.toUpperCase() === ref.toUpperCase() && from.pin === pin;
  // An open track leaves the leg of what drives it as it is: there it is a short only.
  const atDriver = net.pins.some(({ ref, pin }) => {
    const part = model.part(ref);
    return part !== undefined && isFrom(ref, pin) && pinRoleOf(part, pin) === "drives";
  });
  // What conducts with the power off shows then as well; what read right there hardly pulls the node down.
  const unshorted = state === "low" && read.nets.has(net.name) ? UNSHORTED : 1;
  const ofTrack = EFFECT.track[state] * (atDriver ? AT_DRIVER * unshorted : 1);
  found.push({ suspect: trackSuspect(net.name), weight: ofTrack * left });
  const short = (ref: string, weight: number) => add(ref, weight * unshorted);
  const driven = net.pins.some(({ ref, pin }) => {
    const part = model.part(ref);
    const role = part && pinRoleOf(part, pin);
    return role === "drives" || role === "collector";
  });
  // A line that moves before a resistor comes through it, whatever the header behind does.
  const fed =
    driven ||
    net.pins.some(({ ref, pin }) => {
      const part = model.part(ref);
      return (
        (part?.kind === "resistor" || part?.kind === "resistor-network") &&
        otherEnds(part, pin).some((end) => read.levels.get(end.net.name) === "pulsing")
      );
    });
  for (const { ref, pin } of net.pins) {
    const part = model.part(ref);
    if (!part) continue;
    const role = pinRoleOf(part, pin);
    const name = part.part.ref;
    if (role === "takes" && isFrom(name, pin)) joint(name, pin, EFFECT.ownJoint[state]);
    switch (role) {
      case "drives":
      case "may-drive": {
        const share = role === "drives" ? 1 : driven ? 0.15 : 0.4;
        const inside = isDescribed(part, pin) ? 1 : THROUGH_UNKNOWN;
        const needed = needs(part, pin, state);
        add(name, EFFECT.driver[state] * share);
        if (!isFrom(name, pin)) joint(name, pin, EFFECT.driverJoint[state] * share);
        powerOf(part, EFFECT.groundJoint[state] * share, EFFECT.supplyJoint[state] * share);
        for (const need of needed) {
          if (need.timing) {
            go(need.net, need.state, share, { ref: name, pin: need.pin, timing: true });
            continue;
          }
          // The node may be right up to the joint; a leg that was seen to move has it.
          const leg = read.pinLevels.get(`${name}.${need.pin}`.toUpperCase());
          const shared = read.right.has(need.net.name) && leg === undefined;
          if (!model.isSupply(need.net) && !shared && (leg === undefined || leg === "floating"))
            joint(
              name,
              need.pin,
              (leg === "floating" ? EFFECT.ownJoint.floating : EFFECT.needJoint[need.state]) * share * inside,
            );
          go(need.net, need.state, share * inside, { ref: name, pin: need.pin });
        }
        break;
      }
      case "takes":
        short(name, EFFECT.input[state]);
        break;
      case "collector":
      case "emitter":
      case "base":
        transistor(part, pin, role);
        break;
      case "lead":
        lead(part, pin);
        break;
      default:
        break;
    }
  }
  return next;

  function powerOf(part: PartModel, ground: number, supply: number): void {
    const pins = powerPins(part);
    if (isSeenToMove(part, read)) return;
    const isRead = (pin: string): boolean => read.pins.has(`${part.part.ref}.${pin}`.toUpperCase());
    for (const pin of pins.ground) if (!isRead(pin)) joint(part.part.ref, pin, ground / pins.ground.length);
    for (const pin of pins.supply) if (!isRead(pin)) joint(part.part.ref, pin, supply / pins.supply.length);
  }

  function transistor(part: PartModel, pin: string, role: "collector" | "emitter" | "base"): void {
    const name = part.part.ref;
    const netOf = (wanted: string) => part.pins.find((one) => pinRoleOf(part, one.pin) === wanted);
    if (role === "base") {
      short(name, EFFECT.junctionShort[state] * 0.5);
      return;
    }
    const on: WrongState = isPnp(part) ? "low" : "high";
    const emitter = netOf("emitter");
    const rest = emitter && tiedTo(model, emitter.net);
    // What it does to this node while it conducts.
    const pulls: WrongState =
      role === "emitter"
        ? isPnp(part)
          ? "low"
          : "high"
        : rest === "ground"
          ? "low"
          : rest === "rail"
            ? "high"
            : isPnp(part)
              ? "high"
              : "low";
    const conducts = state === pulls;
    const base = netOf("base");
    const wanted: WrongState =
      state === "low" || state === "high" ? (conducts ? on : opposite(on)) : "steady";
    if (conducts) short(name, EFFECT.junctionShort[state]);
    else add(name, EFFECT.junctionOpen[state]);
    if (!conducts) joint(name, pin, EFFECT.driverJoint[state] * 0.4);
    if (base) go(base.net, wanted, 1, { ref: name, pin: base.pin });
    // The way back of an optocoupler's diode.
    const back = part.pins.find((one) => /^\d?K$/i.test(part.device?.pins.get(one.pin)?.name ?? ""));
    if (back && part.kind !== "transistor") go(back.net, opposite(wanted), 0.5, { ref: name, pin: back.pin });
    // A reference at the emitter that is gone lets it conduct, or keeps it from it.
    if (role === "collector" && emitter && rest === undefined && (state === "low" || state === "high"))
      go(emitter.net, conducts ? state : opposite(state), 0.6);
  }

  function lead(part: PartModel, pin: string): void {
    const name = part.part.ref;
    const ends = otherEnds(part, pin);
    const [end] = ends;
    const tied = end && tiedTo(model, end.net);
    switch (part.kind) {
      case "resistor":
      case "resistor-network": {
        if (timing) add(name, EFFECT.timingResistor[state]);
        if (tied === undefined) {
          add(name, EFFECT.seriesOpen[state]);
          // A wiper stands between two ends.
          for (const one of isPotentiometer(part) ? ends : end ? [end] : [])
            go(one.net, state, 1, { ref: name, pin: one.pin });
          return;
        }
        const holds = tied === "rail" ? state !== "high" : state !== "low";
        add(name, holds ? EFFECT.pullOpen[state] * (driven ? 0.7 : 1) : EFFECT.pullOther[state]);
        return;
      }
      case "capacitor":
      case "electrolytic":
        // A timing node that was seen charged is not shorted.
        if (timing)
          short(name, EFFECT.timingCapacitor[state] * (read.levels.get(net.name) === "high" ? CHARGED : 1));
        short(name, EFFECT[part.kind][tied === "rail" ? opposite(state) : state]);
        if (end && tied === undefined && state === "steady") go(end.net, state, 1);
        return;
      case "diode":
        if (tied === "ground" && state === "low") short(name, EFFECT.junctionShort.low);
        else add(name, EFFECT.junctionOpen[state] * (tied === "ground" ? 0.2 : 1));
        if (end && tied === undefined) go(end.net, state, 0.8);
        return;
      case "crystal":
        add(name, EFFECT.crystal[state]);
        if (end && state === "steady") go(end.net, "steady", 0.6);
        return;
      case "connector":
        if (isFrom(name, pin)) joint(name, pin, EFFECT.ownJoint[state]);
        else {
          add(name, EFFECT.header[state] * (fed ? 0.1 : 0.5));
          joint(name, pin, EFFECT.header[state] * (fed ? 0.05 : 1));
        }
        return;
      case "switch":
        add(name, EFFECT.contact[state]);
        return;
      case "test-point":
        return;
      default:
        // Clock pins of a processor are no lead of its own, and what the library does not know is anything.
        add(name, EFFECT.driver[state] * 0.6);
    }
  }
}
