// What was off a net while one of its pins was read, as far as it matters for that reading.

import { boardIndex } from "../../knowledge/board-index";
import type { Board } from "../../knowledge/types";
import type { Disconnection } from "../../log/disconnections";
import type { Reading } from "../../log/model";
import { pinName, type TestPoint } from "../test-point";

export interface IsolatedReading {
  /** The leg itself was read, off its pad: the part alone, without its net. */
  readonly alone: boolean;
  /** Designators off the net, as the board has them; the reading's own part where its pad or socket was read. */
  readonly off: readonly string[];
  /** The net is cut somewhere that nobody can tell the sides of. */
  readonly cut: boolean;
  /** The same for readings taken with the same things off. */
  readonly key: string;
  /** "with U12 out", "with U12 pin 3 lifted", "with the pin lifted": inside a sentence. */
  readonly words: string;
}

/**
 * What a reading's note, its heading and the work before it take off its net. Undefined where nothing of it touches
 * the pin's net, so that the reading is one of the whole net.
 * @param before what the work noted before it left off
 */
export function isolationOf(
  { apart = [] }: Pick<Reading, "apart">,
  place: TestPoint,
  board: Board | undefined,
  before: readonly Disconnection[] = [],
): IsolatedReading | undefined {
  const said = before.length === 0 ? apart : [...before, ...apart];
  if (said.length === 0) return undefined;
  const { net } = place;
  const own = place.ref.toUpperCase();
  const pin = pinName(place)?.toUpperCase();
  const members = new Map((net?.pins ?? []).map(({ ref }) => [ref.toUpperCase(), ref]));
  const index = board && boardIndex(board);
  let alone = false;
  let cut = false;
  const off = new Map<string, string>();
  const words: string[] = [];
  const isNear = (ref: string | undefined, at: string | undefined): boolean =>
    net !== undefined && at !== undefined && index?.net(ref ?? place.ref, at) === net;
  const takes = (ref: string, at: string | undefined, how: Disconnection["how"]): void => {
    const name = members.get(ref.toUpperCase()) ?? ref;
    if (off.has(name.toUpperCase())) return;
    off.set(name.toUpperCase(), name);
    words.push(
      at === undefined ? `${name} out` : `${name} pin ${at} ${how === "cut" ? "cut off" : "lifted"}`,
    );
  };
  // "Cut between U12.3 and J3.4": read at either, the other is what is off; read anywhere else, nobody knows.
  const ends = said.filter(({ ref, how }) => how === "cut" && ref !== undefined);
  const isEnd = ends.some(({ ref, pin: at }) => ref?.toUpperCase() === own && at === pin);
  for (const { ref, pin: at, how, pad } of said) {
    if (how === "cut" && ends.length > 1 && isNear(ref, at)) {
      cut ||= !isEnd;
      if (isEnd && !(ref?.toUpperCase() === own && at === pin)) takes(ref ?? place.ref, at, how);
      continue;
    }
    if (how === "cut" && ref === undefined && at === undefined) {
      cut ||= net !== undefined;
      continue;
    }
    const isOwn = ref === undefined || ref.toUpperCase() === own;
    if (isOwn && how !== "out" && (at === undefined || at === pin)) {
      if (pad) takes(place.ref, pin, how);
      else alone = true;
    } else if (isOwn && how === "out") {
      // Where its own part is out, the socket was read.
      if (net) takes(place.ref, undefined, how);
    } else if (at === undefined) {
      if (ref !== undefined && members.has(ref.toUpperCase())) takes(ref, undefined, how);
    } else if (net && index?.net(ref ?? place.ref, at) === net) {
      takes(ref ?? place.ref, at, how);
    }
  }
  if (alone) off.clear();
  if (!alone && !cut && off.size === 0) return undefined;
  const told = alone ? ["the pin off its pad"] : [...words, ...(cut ? ["the track cut"] : [])];
  return {
    alone,
    off: [...off.values()],
    cut,
    key: alone ? "alone" : [...[...off.keys()].sort(), ...(cut ? ["cut"] : [])].join(" "),
    words: `with ${told.join(" and ")}`,
  };
}
