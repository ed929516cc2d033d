// Short descriptions of parts and pins, shared by completion, hover and symbols.

import type { LogContext } from "../../judge/context";
import { partTestPoint, pinTestPoint, type TestPoint } from "../../judge/test-point";
import type { Board, Device, DevicePin, Net, Part, PinRef } from "../../knowledge/types";
import { joined, type Markdown, markdown, md } from "../../text/markdown";
import { inWords, type Saying } from "../../text/saying";

/** "74LS14 hex inverter": what is printed on the part, and what the library calls it. Empty where neither is known. */
export function partTitle(part: Part, device: Device | undefined): string {
  const what = part.device ?? part.value ?? "";
  return device ? `${what} ${lowerFirst(device.title)}`.trim() : what;
}

/**
 * The name of the circuit that a part belongs to, its id where the board file does not list it; undefined where it
 * names none.
 */
export function circuitTitle(part: Part, board: Board): string | undefined {
  return part.circuit === undefined ? undefined : (board.circuits.get(part.circuit)?.title ?? part.circuit);
}

/** "74LS04 hex inverter · Switch matrix". */
export function partLine(part: Part, board: Board, ctx: LogContext): string {
  const device = part.device === undefined ? undefined : ctx.library.device(part.device)?.device;
  return [partTitle(part, device), circuitTitle(part, board)].filter(Boolean).join(" · ");
}

/** "1A input · net ROW_1", or "1A input · joined to U9-2" where nobody has named the net. */
export function pinLine(place: TestPoint): string {
  const { pin, net } = place;
  const joined = joinedTo(place);
  const on = joined.length > 0 ? `joined to ${joined.slice(0, 3).join(", ")}` : net && `net ${net.name}`;
  return [pin ? `${pin.name} ${directionWords(pin)}` : undefined, on].filter(Boolean).join(" · ");
}

/** "U9-2": what a pin was found joined to, where its net has no name but that of a pin. */
export function joinedTo({ ref, pin, pinTyped, net }: TestPoint): string[] {
  if (!net || !isNameless(net)) return [];
  const own = `${ref}-${pin?.number ?? pinTyped}`.toUpperCase();
  return net.pins.map((at) => `${at.ref}-${at.pin}`).filter((name) => name.toUpperCase() !== own);
}

const DIRECTIONS: Readonly<Record<DevicePin["direction"], string>> = {
  input: "input",
  output: "output",
  bidirectional: "in and out",
  "three-state": "three-state output",
  "open-collector": "open-collector output",
  "open-emitter": "open-emitter output",
  supply: "supply",
  ground: "ground",
  passive: "passive",
  "not-connected": "not connected",
};

/** What a pin does, in words: "three-state output". */
export const directionWords = (pin: Pick<DevicePin, "direction">): string => DIRECTIONS[pin.direction];

/** True for a net that nobody has named: it goes by the first pin that was found on it. */
export const isNameless = ({ name, pins: [first] }: Net): boolean =>
  first !== undefined && name === `${first.ref}-${first.pin}`;

/** Everything on a net with what it is there: "U14.2 (1Y output)". */
export function netMembers(net: Net, ctx: LogContext, but?: PinRef): string[] {
  const board = ctx.board?.value;
  const pins = but ? net.pins.filter(({ ref, pin }) => ref !== but.ref || pin !== but.pin) : net.pins;
  return pins.map(({ ref, pin }) => {
    const place = pinTestPoint(partTestPoint(ref, board, ctx.library), pin, board);
    return place.pin ? `${ref}.${pin} (${place.pin.name} ${directionWords(place.pin)})` : `${ref}.${pin}`;
  });
}

/** More members of a net than this are counted, not named: a ground net has hundreds. */
const FEW = 16;

/** Names one after another, as many as can be read at a glance. */
export function fewOf(names: readonly string[]): Markdown {
  const shown = joined(names.slice(0, FEW).map(md), ", ");
  return names.length > FEW ? markdown`${shown} and ${names.length - FEW} more` : shown;
}

/** Designators in the order people count them: U2 before U14, R before U. */
export function byRef(a: string, b: string): number {
  return a.localeCompare(b, "en", { numeric: true });
}

/** A device's pins by their numbers, 2 before 10. */
export const pinsInOrder = (device: Device): DevicePin[] =>
  [...device.pins.values()].sort((a, b) => byRef(a.number, b.number));

/** What is said, with what is beside it. */
export const sayingMarkdown = (says: Saying): Markdown =>
  md([inWords(says), says.more].filter(Boolean).join(" "));

const lowerFirst = (text: string): string =>
  /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
