// How to find out which of the parts on a net pulls it down: what comes off easily first, iron and knife last.
import type { Board, Net } from "../../knowledge/types";

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
const NAMED = 4;

/**
 * Steps in the order of their effort, as one paragraph; the net is read again after each.
 * @param tried parts that were off the net already, without its coming back
 */
export function howToSeparate(net: Net, board: Board, tried: ReadonlySet<string> = new Set()): string {
  const { plugs, socketed, pins } = sorted(net, board, tried);
  const few = pins.slice(0, NAMED).join(", ");
  const more = pins.length > NAMED ? ` and ${pins.length - NAMED} more` : "";
  const steps = [
    ...(plugs.length > 0 ? [`unplug ${plugs.join(", ")}`] : []),
    ...(socketed.length > 0 ? [`pull ${socketed.join(", ")} from the socket one at a time`] : []),
    ...(pins.length > 0
      ? [`lift ${few}${more} one at a time, or cut the track half-way and read both sides`]
      : []),
  ];
  if (steps.length === 0 && tried.size > 0)
    return "Nothing else on the net is left to take off: look along its track for a bridge.";
  if (steps.length === 0) return "Read the net again, then look along its track for a bridge.";
  return `Power off; read the net again after each step: ${steps.join("; ")}. The part whose leaving brings the net back is the one; if it stays low with all of them off, the track touches another: look for a bridge.`;
}
