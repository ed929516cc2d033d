// How to find out which of the parts on a net pulls it down: what comes off easily first, iron and knife last.

import type { Board, Net } from "../../knowledge/types";
import type { Advice } from "../../text/saying";
import { someOf } from "./net-text";

interface Sorted {
  readonly plugs: readonly string[];
  readonly socketed: readonly string[];
  /** "U14 pin 1", of soldered parts. */
  readonly pins: readonly string[];
}

function sorted(net: Net, board: Board, tried: ReadonlySet<string>): Sorted {
  const plugs = new Set<string>();
  const socketed = new Set<string>();
  const pins: string[] = [];
  for (const { ref, pin } of net.pins) {
    const part = board.parts.get(ref);
    if (/^TP/i.test(ref) || tried.has(ref)) continue;
    if (/^(?:J|P|CN|X)\d/i.test(ref)) plugs.add(ref);
    else if (part?.socketed) socketed.add(ref);
    else pins.push(`${ref} pin ${pin}`);
  }
  return { plugs: [...plugs], socketed: [...socketed], pins };
}

/** Pins named in a sentence; a bus has more than anyone would lift. */
const NAMED = 2;

/**
 * The first step, and with it all of them in the order of their effort; the net is read again after each.
 * @param tried parts that were off the net already, without its coming back
 */
export function howToSeparate(net: Net, board: Board, tried: ReadonlySet<string> = new Set()): Advice {
  const { plugs, socketed, pins } = sorted(net, board, tried);
  const steps = [
    ...(plugs.length > 0 ? [`unplug ${someOf(plugs, NAMED)}`] : []),
    ...(socketed.length > 0 ? [`pull ${someOf(socketed, NAMED)} from the socket one at a time`] : []),
    ...(pins.length > 0
      ? [`lift ${someOf(pins, NAMED)} one at a time, or cut the track half-way and read both sides`]
      : []),
  ];
  if (steps.length === 0 && tried.size > 0)
    return { step: "Nothing else on the net is left to take off. Look along its track for a bridge." };
  const [first, ...others] = steps;
  if (first === undefined) return { step: "Read the net again, then look along its track for a bridge." };
  const then = others.length > 0 ? `, then ${others.join("; ")}` : "";
  return {
    step: `Power off, ${first}, and read the net again.`,
    more: `Read the net again after each step: ${first}${then}. When the net comes back, the part you took off last is the one. If it stays low with all of them off, its track touches another: look for a bridge.`,
  };
}
