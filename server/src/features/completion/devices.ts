// The numbers printed on parts, as the library knows them: the classic ones before the graded ones, few at a time.
import { certainNumbers } from "../../knowledge/doubt-text";
import type { DeviceMatch, Library } from "../../knowledge/library";
import type { Device, DeviceKind } from "../../knowledge/types";
import { hasNumber } from "../shared/part-name";
import type { Completion } from "../types";

/** Offered at once; more would bury what the board has, and they come up once more is typed. */
const MOST = 30;

/** Kinds of device by the letters of their designators; a chip may be anything but these. */
const BY_LETTERS: readonly (readonly [RegExp, readonly DeviceKind[]])[] = [
  [/^(?:Q|T|TR|VT|SCR)\d/i, ["transistor"]],
  [/^(?:D|CR|ZD|LED)\d/i, ["diode"]],
  [/^(?:VR|REG)\d/i, ["regulator"]],
];
const NO_CHIPS: readonly DeviceKind[] = ["transistor", "diode", "passive"];

/** What may stand at a designator, by its letters; anything where none is given. */
function mayBe(ref: string, { kind }: Device): boolean {
  if (ref === "") return true;
  if (!hasNumber(ref)) return false;
  const kinds = BY_LETTERS.find(([letters]) => letters.test(ref))?.[1];
  return kinds ? kinds.includes(kind) : !NO_CHIPS.includes(kind);
}

export interface Devices {
  readonly few: readonly DeviceMatch[];
  readonly isAll: boolean;
}

/**
 * Devices whose number begins as typed, all kinds where the designator is "". A number typed in full with its maker's
 * letters, which is no beginning of a listed one, is that device.
 */
export function devicesFor(
  ref: string,
  typed: string,
  library: Library,
  wanted: (device: Device) => boolean = () => true,
): Devices {
  const begun = library.devicesMatching(typed);
  const printed = begun.length === 0 && typed !== "" ? library.device(typed) : undefined;
  const all = (printed ? [printed] : begun).filter(({ device }) => mayBe(ref, device) && wanted(device));
  return { few: all.slice(0, MOST), isAll: all.length <= MOST };
}

/** The certain numbers of what a number may be that is none, such as 4024 for an MC4024; none for any other. */
export function certainFor(
  ref: string,
  typed: string,
  library: Library,
): readonly { readonly number: string; readonly device: Device }[] {
  const doubt = library.doubt(typed);
  const numbers = doubt ? certainNumbers(doubt) : [];
  return numbers.flatMap((number) => {
    const device = library.device(number)?.device;
    return device && mayBe(ref, device) ? [{ number, device }] : [];
  });
}

/** An item each, marked where they are not all. */
export const withMore = ({ few, isAll }: Devices, make: (match: DeviceMatch) => Completion): Completion[] =>
  few.map((match) => (isAll ? make(match) : { ...make(match), oneOfMany: true }));
