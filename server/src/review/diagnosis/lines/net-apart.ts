// Pins held against the rest of their own net: one that floats while the rest stands at a level, one that stands still while the
// rest moves.

import { defined } from "../../../base/defined";
import type { SeenLevel, SignFinding } from "../../../compute/diagnosis/types";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, PinRef } from "../../../knowledge/types";
import type { LocatedObservation } from "../observation";

/** A leg that floats by itself: its net was seen at a level at another of its pins. */
export function floatingApart(all: readonly LocatedObservation[], board: Board): LocatedObservation[] {
  const index = boardIndex(board);
  const held = new Map<string, SeenLevel>();
  for (const { level } of all) {
    const net = level && level.state !== "floating" ? index.net(level.ref, level.pin) : undefined;
    if (net && level) held.set(net.name, level);
  }
  return all.flatMap((one): LocatedObservation[] => {
    const { level, finding, table } = one;
    if (level?.state !== "floating" || finding) return [];
    const net = index.net(level.ref, level.pin);
    const other = net && held.get(net.name);
    if (!net || !other) return [];
    const of = `${level.ref} pin ${level.pin}`;
    return [
      defined({
        ...one,
        key: `apart ${level.ref}.${level.pin}`.toUpperCase(),
        table,
        finding: {
          kind: "sign",
          sign: "floating",
          ref: level.ref,
          pin: level.pin,
          state: "floating",
          of,
          says: `${of} floats, and ${other.ref} pin ${other.pin} on the same net does not.`,
        } satisfies SignFinding,
      }),
    ];
  });
}

/** A leg that stands still, with another of its net seen to move in the same table. */
export function stillApart(all: readonly LocatedObservation[], board: Board): LocatedObservation[] {
  const index = boardIndex(board);
  const nets = new Map<string, { readonly one: LocatedObservation; readonly level: SeenLevel }[]>();
  for (const one of all) {
    const { level } = one;
    const net = level && index.net(level.ref, level.pin);
    if (net && level && one.table) nets.set(net.name, [...(nets.get(net.name) ?? []), { one, level }]);
  }
  return [...nets].flatMap(([name, seen]): LocatedObservation[] => {
    const still = seen.filter(({ level }) => level.state === "low" || level.state === "high");
    const [first] = still;
    const moving = seen.filter(
      ({ one, level }) => level.state === "pulsing" && one.table === first?.one.table,
    );
    if (!first || moving.length === 0 || still.some(({ one }) => one.finding)) return [];
    const isBoth = still.some(({ level }) =>
      moving.some((other) => other.level.ref === level.ref && other.level.pin === level.pin),
    );
    if (isBoth) return [];
    const pinsOf = (list: typeof seen): PinRef[] => list.map(({ level: { ref, pin } }) => ({ ref, pin }));
    const names = (list: typeof seen): string =>
      pinsOf(list)
        .map(({ ref, pin }) => `${ref} pin ${pin}`)
        .join(", ");
    const [pins, others] = [pinsOf(still), pinsOf(moving)];
    return [
      defined({
        ...first.one,
        level: undefined,
        key: `still apart ${name}`.toUpperCase(),
        what: name,
        finding: {
          kind: "sign",
          sign: "moves-apart",
          nets: [name],
          pins,
          others,
          of: `the states on ${name}`,
          says: `${names(moving)} ${moving.length === 1 ? "moves" : "move"}, and ${names(still)} on the same net ${still.length === 1 ? "does" : "do"} not.`,
        } satisfies SignFinding,
      }),
    ];
  });
}
