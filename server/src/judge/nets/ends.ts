// The two ends of a continuity row by the board's nets, and what lies between them that a beeper can hear.

import { readValue } from "../../compute/part-value";
import { boardIndex } from "../../knowledge/board-index";
import type { Library } from "../../knowledge/library";
import type { Board, Net, Part, PinRef } from "../../knowledge/types";
import { CONTINUITY } from "../../log/measures";
import type { Reading } from "../../log/model";
import { isJoined, linkEnd } from "../../log/stated/links";
import { extentOf } from "../compare";

/** More than this between two pins of one net is no track; ohms, common practice, no source. */
const OPEN_ABOVE = 50;

export interface End {
  /** Absent where the row names a net and no pin of it. */
  readonly at?: PinRef;
  readonly net: Net;
}

/** What was heard or measured between the two: nothing at all, a track, something of some ohms, or now and then a track. */
export type Heard = "open" | "joined" | "some" | "unsure";

/** A continuity row by the nets that its two ends are on; `heard` is undefined where the cell says nothing of it. */
export interface EndsRead {
  readonly from: End;
  readonly to: End;
  readonly heard: Heard | undefined;
  /** "U5-4 to U9-2", as typed. */
  readonly of: string;
}

/** Undefined where the board has no net for one of the ends. */
export function endsRead(
  { subject, measure, value }: Reading,
  board: Board | undefined,
  library: Library,
): EndsRead | undefined {
  if (!board || measure !== CONTINUITY || !subject.from || !subject.to) return undefined;
  const from = endAt(linkEnd(subject.from, library), board);
  const to = endAt(linkEnd(subject.to, library), board);
  return from && to && { from, to, heard: heardIn(value), of: `${subject.from.text} to ${subject.to.text}` };
}

/** What a cell of a continuity table says was between the two ends; undefined for words that say nothing of it. */
export function heardIn(value: Reading["value"]): Heard | undefined {
  if (isJoined(value)) return "joined";
  if (value.kind === "open") return "open";
  if (value.kind === "result") return value.ok === undefined ? "unsure" : value.ok ? "joined" : "open";
  const ohms = extentOf(value);
  return ohms && (ohms.low > OPEN_ABOVE ? "open" : "some");
}

function endAt(end: ReturnType<typeof linkEnd>, board: Board): End | undefined {
  if (!end) return undefined;
  if ("ref" in end) {
    const net = boardIndex(board).net(end.ref, end.pin);
    return net && { at: { ref: end.ref, pin: end.pin }, net };
  }
  const wanted = end.net.toUpperCase();
  const net =
    [...board.nets.values()].find(({ name }) => name.toUpperCase() === wanted) ??
    board.nets.get([...board.rails.values()].find(({ name }) => name.toUpperCase() === wanted)?.net ?? "") ??
    (wanted === "GND" ? board.nets.get(board.grounds[0] ?? "") : undefined);
  return net && { net };
}

const CLOSED = /\b(on|closed|pressed|made)\b/i;
const FUSE = /^F\d/i;
const SWITCH = /^SW?\d/i;

/** The fuse that lies between the two, or the switch that both are of and that was closed: it should have beeped. */
export function mustJoin({ from, to }: EndsRead, { subject }: Reading, { nets }: Board): string | undefined {
  const fuse = from.net.pins.find(
    ({ ref }) => FUSE.test(ref) && nets.get(to.net.name)?.pins.some((one) => one.ref === ref),
  );
  if (fuse) return fuse.ref;
  const own = from.at?.ref;
  const isSwitch = own !== undefined && own === to.at?.ref && SWITCH.test(own);
  return isSwitch && CLOSED.test(subject.note?.text ?? "") ? own : undefined;
}

/** Fuses, coils, transformers, links, switches and relays: what has next to no ohms, or may have. */
const LOW_OHMS = /^(?:F|FB|L|T|TR|W|JP|LK|LINK|SW?|K|RY|RL)\d/i;

/** Parts with a pin on both nets that let a beeper sound: the beep is theirs, as likely as not. */
export function canBeep({ from, to }: EndsRead, board: Board): readonly string[] {
  const across = new Set(to.net.pins.map(({ ref }) => ref.toUpperCase()));
  const refs = new Set(from.net.pins.map(({ ref }) => ref).filter((ref) => across.has(ref.toUpperCase())));
  return [...refs].filter(
    (ref) =>
      LOW_OHMS.test(ref) ||
      (isLowResistor(boardIndex(board).part(ref)) && isOneElement(ref, from.net, to.net, board)),
  );
}

/** True for all but a pack of resistors of which the two nets are on different ones. */
function isOneElement(ref: string, one: Net, other: Net, board: Board): boolean {
  const part = boardIndex(board).part(ref);
  if (!/^R(?:N|P)\d/i.test(ref) || !part) return true;
  const pins = (net: Net): number[] =>
    net.pins.flatMap((at) => (at.ref.toUpperCase() === ref.toUpperCase() ? Number(at.pin) : []));
  const all = Number(/DIP-?(\d+)/i.exec(`${part.package ?? ""} ${part.value ?? ""}`)?.[1] ?? 0);
  return pins(one).some((a) => pins(other).some((b) => (all > 0 ? a + b === all + 1 : a === 1 || b === 1)));
}

function isLowResistor(part: Part | undefined): boolean {
  if (!part?.value || !/^R/i.test(part.ref)) return false;
  const value = readValue(part.value, "resistance");
  return value !== undefined && value.nominal <= OPEN_ABOVE;
}

/** The pins among a row's two ends; none for an end that is given as a net. */
export const pinsOf = ({ from, to }: EndsRead): readonly PinRef[] =>
  [from.at, to.at].flatMap((at) => at ?? []);

/** A beep without ohms from a rail to ground, or to another: all that the board draws lies between, and may be heard. */
export const isWholeBoard = ({ from, to }: EndsRead, { value }: Reading, board: Board): boolean => {
  const { railOf, isGround } = boardIndex(board);
  const fed = (net: Net): boolean => isGround(net) || railOf(net) !== undefined;
  return value.kind === "short" && !/short/i.test(value.typed) && fed(from.net) && fed(to.net);
};
