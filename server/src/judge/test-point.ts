import { defined } from "../base/defined";
import { memo } from "../base/memo";
import { boardIndex } from "../knowledge/board-index";
import type { Library } from "../knowledge/library";
import type { Board, Device, DevicePin, Family, Net, Part } from "../knowledge/types";
import type { Subject } from "../log/model";
import type { LogContext } from "./context";

/** What stands where a reading was taken, as far as the board file and the library know it. */
export interface TestPoint {
  readonly ref: string;
  readonly part?: Part;
  readonly device?: Device;
  readonly family?: Family;
  readonly pin?: DevicePin;
  /** The pin as typed where the device does not have it. */
  readonly pinTyped?: string;
  readonly net?: Net;
  readonly tiedTo?: "ground" | { readonly rail: string; readonly volts?: number };
}

/** The part at a designator with its device, looked up in the board and the library. */
export function partTestPoint(ref: string, board: Board | undefined, library: Library): TestPoint {
  const part = board && boardIndex(board).part(ref);
  const found = part?.device === undefined ? undefined : library.device(part.device);
  return defined({
    ref: part?.ref ?? ref,
    part,
    device: found?.device,
    family: found?.family ? found.family : undefined,
  });
}

/**
 * Where a row's reading was taken: its part, and the pin where the row names one. Undefined for rows that name no part.
 */
export function testPointOf({ ref, pin }: Subject, { board, library }: LogContext): TestPoint | undefined {
  return ref && testPointAt(ref.text, pin?.text, board?.value, library);
}

/** The same by the words themselves; the very same object for the same words on the same board, of which thousands are kept. */
export function testPointAt(
  ref: string,
  pin: string | undefined,
  board: Board | undefined,
  library: Library,
): TestPoint {
  const isKept = ref.length <= LONGEST_KEPT && (pin?.length ?? 0) <= LONGEST_KEPT;
  if (!isKept) return lookUp(ref, pin, board, library);
  const known = board ? placesOn(board, library) : placesOffBoards(library);
  const key = pin === undefined ? ref : `${ref}\n${pin}`;
  let place = known.get(key);
  if (place === undefined) {
    if (known.size >= MOST_KEPT) known.clear();
    place = lookUp(ref, pin, board, library);
    known.set(key, place);
  }
  return place;
}

/** Places are asked for by every check of every reading, and are few on any board. */
const placesOn = memo((_board: Board, _library: Library) => new Map<string, TestPoint>());
const placesOffBoards = memo((_library: Library) => new Map<string, TestPoint>());
/** As many are kept of a board. */
const MOST_KEPT = 5000;
/** A longer text may be a piece of a larger one, which it would hold in memory. */
const LONGEST_KEPT = 12;

function lookUp(ref: string, pin: string | undefined, board: Board | undefined, library: Library): TestPoint {
  const at = partTestPoint(ref, board, library);
  return pin === undefined ? at : pinTestPoint(at, pin, board);
}

/**
 * A part's place narrowed to one of its pins, given by number or name, with its net and the rail or ground that it is
 * tied to.
 */
export function pinTestPoint(at: TestPoint, pinTyped: string, board: Board | undefined): TestPoint {
  const pin = at.device && resolvePin(at.device, pinTyped);
  const number = pin?.number ?? pinNumber(pinTyped);
  const index = board && boardIndex(board);
  // A connector's pins may have letters ("A1"): those stand in the net list as typed.
  const net = index?.net(at.ref, number ?? pinTyped.trim());
  const rail = net && index?.railOf(net);
  const volts = rail === undefined ? undefined : index?.voltsOf(rail);
  const tiedTo: TestPoint["tiedTo"] =
    net && index?.isGround(net)
      ? "ground"
      : rail !== undefined
        ? { rail, ...(volts === undefined ? {} : { volts }) }
        : undefined;
  return {
    ...at,
    pinTyped,
    ...(pin ? { pin } : {}),
    ...(net ? { net } : {}),
    ...(tiedTo ? { tiedTo } : {}),
  };
}

/** "14", "pin 14", "14 (VCC)" or the pin's name; undefined where the device has no such pin. */
export function resolvePin(device: Device, typed: string): DevicePin | undefined {
  const number = pinNumber(typed);
  const byNumber = number === undefined ? undefined : device.pins.get(number);
  if (byNumber || (number !== undefined && /^\D*\d+\b/.test(typed))) return byNumber;
  const name = typed.trim().toUpperCase();
  const pins = [...device.pins.values()];
  const named = pins.find((pin) => pin.name.toUpperCase() === name);
  const directions = named ? undefined : MEANT.get(name);
  // Of a regulator or a driver the word is as good as its name, where just one pin is meant.
  const meant = directions ? pins.filter(({ direction }) => directions.includes(direction)) : [];
  return named ?? (meant.length === 1 ? meant[0] : undefined);
}

/** Words for pins whatever the sheet calls them, by what such a pin is. */
const MEANT: ReadonlyMap<string, readonly string[]> = new Map<string, readonly string[]>([
  ["COM", ["ground"]],
  ["COMMON", ["ground"]],
  ["GROUND", ["ground"]],
  ["GND", ["ground"]],
  ["IN", ["supply"]],
  ["INPUT", ["supply"]],
  ["OUT", ["output"]],
  ["OUTPUT", ["output"]],
]);

/** The pin number in a pin cell, without leading zeros; undefined where the cell holds a name. */
export function pinNumber(typed: string): string | undefined {
  const match = /^\s*(?:pins?\s*|legs?\s*|p)?0*(\d{1,3})(?!\w)/i.exec(typed);
  return match?.[1];
}

/** The pin's number, "14" for "pin 14" and for the name of pin 14. */
export const pinName = ({ pin, pinTyped }: TestPoint): string | undefined =>
  pinTyped === undefined ? undefined : (pin?.number ?? pinNumber(pinTyped) ?? pinTyped.trim());

/** A place in words: "U5 pin 4 (2A)", "U5 pin 4" where the device does not have the pin, "U5". */
export function testPointName(place: TestPoint): string {
  if (place.pinTyped === undefined) return place.ref;
  const number = place.pin?.number ?? place.pinTyped;
  return place.pin ? `${place.ref} pin ${number} (${place.pin.name})` : `${place.ref} pin ${number}`;
}
