// Nets out of pins that were found joined, over those that are known already.

import { pinKey } from "../../knowledge/board-index";
import type { Net, PinRef } from "../../knowledge/types";
import type { LinkEnd } from "../../log/stated/statement";
import type { SupplyPin } from "./supplies";
import type { AttributedStatement, SaidBy } from "./types";

export interface JoinedNets {
  readonly nets: ReadonlyMap<string, Net>;
  readonly pins: ReadonlyMap<string, SaidBy>;
}

/**
 * Two named nets are never made one: that they were found joined is a fault, or a mistake, and no knowledge.
 * @param supplies whose nets follow from what they are: what is joined to one of them is on its rail
 */
export function joinNets(
  known: ReadonlyMap<string, Net>,
  said: readonly AttributedStatement[],
  supplies: readonly SupplyPin[] = [],
): JoinedNets {
  if (!said.some(({ statement }) => statement.kind === "link")) return { nets: known, pins: new Map() };
  const nameAt = new Map<string, string>();
  for (const { name, pins } of known.values())
    for (const { ref, pin } of pins) nameAt.set(pinKey(ref, pin), name);
  const follows = new Map<string, string>();
  for (const { net, ref, pin } of supplies) {
    const key = pinKey(ref, pin);
    if (!nameAt.has(key)) follows.set(key, net);
  }
  const names = new Map([...known.keys()].map((name) => [name.toUpperCase(), name]));
  const groups = new Map<string, Group>();
  const order: Group[] = [];
  const groupOf = (end: LinkEnd): Group => {
    const own = "net" in end ? "" : pinKey(end.ref, end.pin);
    const name =
      "net" in end ? (names.get(end.net.toUpperCase()) ?? end.net) : (nameAt.get(own) ?? follows.get(own));
    const key = name !== undefined ? `=${name}` : own;
    const found = groups.get(key);
    if (found) return top(found);
    const made: Group = { name, pins: [] };
    groups.set(key, made);
    order.push(made);
    return made;
  };
  for (const { statement, by } of said) {
    if (statement.kind !== "link") continue;
    const [a, b] = statement.ends.map(groupOf) as [Group, Group];
    for (const [end, group] of [
      [statement.ends[0], a],
      [statement.ends[1], b],
    ] as const) {
      if ("net" in end || nameAt.has(pinKey(end.ref, end.pin))) continue;
      if (!group.pins.some(({ at }) => pinKey(at.ref, at.pin) === pinKey(end.ref, end.pin)))
        group.pins.push({ at: end, by });
    }
    if (a === b || (a.name !== undefined && b.name !== undefined)) continue;
    const [kept, merged] = b.name !== undefined && a.name === undefined ? [b, a] : [a, b];
    kept.pins.push(...merged.pins);
    merged.pins = [];
    merged.into = kept;
  }
  return laidOver(
    known,
    order.filter(({ into, pins }) => !into && pins.length > 0),
  );
}

/** Pins that are one node; `into` once it was found to be part of another. */
interface Group {
  readonly name: string | undefined;
  pins: { readonly at: PinRef; readonly by: SaidBy }[];
  into?: Group;
}

function top(group: Group): Group {
  let at = group;
  while (at.into) at = at.into;
  return at;
}

function laidOver(known: ReadonlyMap<string, Net>, groups: readonly Group[]): JoinedNets {
  const nets = new Map(known);
  const pins = new Map<string, SaidBy>();
  for (const group of groups) {
    const [first] = group.pins;
    const name = group.name ?? `${first?.at.ref}-${first?.at.pin}`;
    for (const { at, by } of group.pins) pins.set(pinKey(at.ref, at.pin), by);
    nets.set(name, { name, pins: [...(nets.get(name)?.pins ?? []), ...group.pins.map(({ at }) => at)] });
  }
  return { nets, pins };
}
