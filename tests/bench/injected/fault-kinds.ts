// Ways in which a part, a pin or a track can fail, and what a suspect's name must then be about.
import { type Board, refOf } from "./board";
import { CHIPS } from "./chips";
import { type Edit, type Fault, net, part, pin, type Truth } from "./fault";

export const make = (
  kind: string,
  what: string,
  where: string,
  truth: readonly Truth[],
  ...edits: readonly Edit[]
): Fault => ({ id: `${where} ${what}`, part: kind, what, truth, edits });

/** Both legs of a part and the part itself: an open part and its joints read the same. */
const anyEnd = (ref: string, ...pins: number[]): Truth[] => [
  part(ref),
  ...pins.map((n) => pin(`${ref}.${n}`)),
];

export const short = (kind: string, ref: string, a = 1, b = 2): Fault =>
  make(kind, "short", a === 1 && b === 2 ? ref : `${ref} ${a}-${b}`, [part(ref)], {
    kind: "short",
    from: `${ref}.${a}`,
    to: `${ref}.${b}`,
  });
export const open = (kind: string, ref: string, at = 1, ...also: number[]): Fault =>
  make(kind, "open", at === 1 ? ref : `${ref} pin ${at}`, anyEnd(ref, at, ...also), {
    kind: "bond",
    pin: `${ref}.${at}`,
  });
export const drift = (kind: string, ref: string, factor: number, ohms?: number): Fault =>
  make(
    kind,
    "drift",
    ref,
    [part(ref)],
    { kind: "value", ref, factor },
    ...(ohms === undefined ? [] : [{ kind: "esr", ref, ohms } as const]),
  );
export const leg = (ref: string, which: "a" | "b" | "c" | "d", to: "open" | "short"): Fault =>
  make("rectifier", to, `${ref} leg ${which}`, [part(ref)], { kind: "leg", ref, leg: which, to });

/** A track that has lost one pin: the joint of that pin reads the same. */
export const cut = (name: string, ...pins: string[]): Fault =>
  make(
    "track",
    "open",
    `${name} to ${pins.join(" ")}`,
    [net(name), ...(pins.length === 1 ? [pin(pins[0]!)] : [])],
    { kind: "track", net: name, pins },
  );
export const joint = (board: Board, name: string): Fault => {
  const on = board.netOf.get(name);
  return make("joint", "open", name, [pin(name), ...(on === undefined ? [] : [net(on)])], {
    kind: "joint",
    pin: name,
  });
};
export const bond = (name: string): Fault =>
  make("chip", "pin open inside", name, [part(refOf(name))], { kind: "bond", pin: name });
export const burnt = (name: string, level: 0 | 1): Fault =>
  make("chip", level === 0 ? "shorted to ground" : "shorted to supply", name, [part(refOf(name))], {
    kind: "burnt",
    pin: name,
    level,
  });
export const frozen = (name: string, level: 0 | 1): Fault =>
  make("chip", level === 0 ? "output stuck low" : "output stuck high", name, [part(refOf(name))], {
    kind: "frozen",
    pin: name,
    level,
  });

/** Each chip on a net, for a net that something holds: which of them cannot be told. */
export const held = (board: Board, name: string, level: 0 | 1): Fault[] =>
  board.nets
    .get(name)!
    .filter((one) => (board.parts.get(refOf(one))?.device ?? "") in CHIPS)
    .map((one) => burnt(one, level));
