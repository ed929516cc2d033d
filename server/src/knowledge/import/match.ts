// Which device of the library an imported part is: by its number, and only where its pins are the library's.
import { parseQuantity } from "../../quantity/quantity";
import type { Library } from "../library";
import type { Device } from "../types";
import type { CombinedPart } from "./combine";

export type Match =
  /** `pins` gives the library's number for pins that are named by letters: A and K, E, B and C. */
  | {
      readonly kind: "device";
      readonly typed: string;
      readonly device: Device;
      readonly pins: ReadonlyMap<string, string>;
    }
  /** The library does not know the number. */
  | { readonly kind: "unknown"; readonly typed: string; readonly reason: string }
  /** The library knows the number for a part with other pins. */
  | { readonly kind: "differs"; readonly typed: string; readonly reason: string }
  /** A resistor, a connector and the like: a value and no part number. */
  | { readonly kind: "value"; readonly typed?: string };

/** Designators of parts that are no devices of the library, whatever digits their value has: common practice, no source. */
const VALUED =
  /^(?:R|RN|RP|RV|VR(?=\d+$)|POT|C|CP|L|FB|F|J|JP|P|PL|CN|CON|X(?=\d+$)|Y|XTAL|TP|SW|S|K|BT|H|MH|MK|FID|LOGO|G)\d*$/i;
/** Designators of parts that bear a number. */
const NUMBERED = /^(?:U|IC|Z|Q|TR|T|D|CR|ZD|DS|LED|VR|REG|OK|ISO|SCR|BR)\d/i;
/** Cases in which a part that the library has with leads numbers its pins otherwise (from memory). */
const OTHER_CASE = /SOT-?\d|SC-?70|DPAK|D2PAK|TO-?252|TO-?263/i;

export function matchPart(part: CombinedPart, library: Library): Match {
  const texts = [part.value, part.partNumber].filter((text) => text !== undefined);
  const [typed] = texts;
  if (typed === undefined) return { kind: "value" };
  // VR1 is a regulator on some boards and a potentiometer on others: its number tells.
  if (!VALUED.test(part.ref) || /^VR/i.test(part.ref)) {
    for (const text of texts) {
      for (const number of numbersIn(text)) {
        const found = library.device(number);
        if (found) return fitted(part, number, found.device);
      }
    }
  }
  const number = texts.find(isPartNumber);
  if (NUMBERED.test(part.ref) && number !== undefined)
    return { kind: "unknown", typed: number, reason: "not in the library" };
  return { kind: "value", typed };
}

/** The whole text, and its first word: "74LS245 SOIC", "XC4003/PQ100". */
function numbersIn(text: string): string[] {
  const [first = ""] = text.split(/[\s/,(_]+/);
  return first.length >= 3 && first !== text ? [text, first] : [text];
}

/** "7404", "2N3904", "XC4003-VQ100"; not "4k7", "8 MHz", "CONN". */
function isPartNumber(text: string): boolean {
  if (/\s/.test(text) || !/^(?=.*\d)[A-Z0-9][\w./+-]+$/i.test(text)) return false;
  return /^\d{3,}$/.test(text) || (/[A-Z]/i.test(text) && !parseQuantity(text).ok);
}

function fitted(part: CombinedPart, typed: string, device: Device): Match {
  const pins = pinsOf(part.pins, device);
  const strange = part.pins.filter((pin) => !isPin(pins.get(pin) ?? pin, device));
  const differs = (reason: string): Match => ({ kind: "differs", typed, reason });
  const library = `the library's is a ${device.package.name} with ${device.package.pins}`;
  if (strange.length > 0)
    return differs(
      part.allPins
        ? `it has ${part.pins.length} pins, and ${library}`
        : `it has a pin ${strange[0]}, and ${library} pins`,
    );
  if (part.allPins && part.pins.length > 0 && part.pins.length < device.pins.size)
    return differs(`it has ${part.pins.length} pins, and ${library}`);
  if (
    device.package.pins <= 3 &&
    OTHER_CASE.test(part.package ?? "") &&
    !OTHER_CASE.test(device.package.name)
  )
    return differs(
      `in its case the pins are numbered otherwise than in the library's ${device.package.name}`,
    );
  return { kind: "device", typed, device, pins };
}

/** As the checks of a board file take a pin: listed, or a number on the package. */
const isPin = (pin: string, device: Device): boolean =>
  device.pins.has(pin) || (/^\d{1,3}$/.test(pin) && Number(pin) >= 1 && Number(pin) <= device.package.pins);

/** Only where every one of them is the name of just one pin. */
function pinsOf(named: readonly string[], device: Device): ReadonlyMap<string, string> {
  const byName = new Map<string, string[]>();
  for (const { name, number } of device.pins.values())
    byName.set(name, [...(byName.get(name) ?? []), number]);
  const found = new Map<string, string>();
  for (const pin of named) {
    if (isPin(pin, device)) continue;
    const numbers = byName.get(pin.toUpperCase());
    if (numbers?.length === 1) found.set(pin, numbers[0]!);
  }
  // Numbers and names of the same pins side by side would say one pin twice.
  return named.some((pin) => isPin(pin, device)) ? new Map() : found;
}
