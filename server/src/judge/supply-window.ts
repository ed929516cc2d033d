// The voltages that a supply pin is made for: its own where the device names it, the device's, the family's.
import { memo } from "../base/memo";
import type { Device, DevicePin, Family } from "../knowledge/types";
import { deviceLimit } from "./device-limits";
import { siValue } from "./uncertainty";

export interface SupplyWindow {
  /** Volts; below zero for a negative supply. */
  readonly low: number;
  readonly high: number;
  readonly source: string;
}

/** Names of supply pins that a device's one `supply` limit is of, where it takes several. */
const MAIN = /^(?:O?V(?:CC|DD|PP|S)\d?|VCC\+|V\+|\+VS)$/i;
/** Names of supply pins below ground, where no limit tells. */
const NEGATIVE = /^(?:V-|-VS|VCC-|VDD-|VEE|VBB|VGG|VKK|VNEG)$/i;

const supplyPins = memo((device: Device): readonly DevicePin[] =>
  [...device.pins.values()].filter(({ direction }) => direction === "supply"),
);

export const suppliesOf = (device: Device): readonly DevicePin[] => supplyPins(device);

const takesSeveral = (device: Device): boolean =>
  new Set(supplyPins(device).map(({ name }) => name)).size > 1;

/** Undefined where nothing is known, or the part takes several supplies and the pin's name does not say which. */
export function supplyWindow(
  { name }: Pick<DevicePin, "name">,
  device: Device,
  family: Family | undefined,
): SupplyWindow | undefined {
  const named = deviceLimit(device, name);
  if (named) return { low: named[0], high: named[1], source: device.source };
  if (takesSeveral(device) && !MAIN.test(name)) return undefined;
  const own = deviceLimit(device, "supply");
  if (own) return { low: own[0], high: own[1], source: device.source };
  const [from, to] = family?.supply ?? [];
  const low = from === undefined ? undefined : siValue(from, "V");
  const high = to === undefined ? undefined : siValue(to, "V");
  if (!family || low === undefined || high === undefined) return undefined;
  return { low, high, source: family.source };
}

/** True for a pin that stands below ground on a board that works; undefined where nothing says. */
export function isNegativeSupply(
  pin: Pick<DevicePin, "name" | "direction">,
  device: Device,
  family: Family | undefined,
): boolean {
  if (pin.direction !== "supply") return false;
  const window = supplyWindow(pin, device, family);
  return window ? window.low < 0 : NEGATIVE.test(pin.name);
}

/** The supply pin that a pin's levels follow: the one it names, else the part's logic supply. */
export function supplyPinOf(pin: Pick<DevicePin, "fed"> | undefined, device: Device): DevicePin | undefined {
  const all = supplyPins(device);
  if (pin?.fed !== undefined) return all.find(({ name }) => name === pin.fed);
  const positive = all.filter((each) => !isNegativeSupply(each, device, undefined));
  return (
    positive.find(({ name }) => /^VCC\+?$/i.test(name)) ??
    positive.find(({ name }) => MAIN.test(name)) ??
    positive[0]
  );
}

/** What a fixed regulator is made to give; undefined for what is none. */
export function outputWindow(device: Device): SupplyWindow | undefined {
  const ends = device.kind === "regulator" ? deviceLimit(device, "output") : undefined;
  return ends && { low: Math.min(...ends), high: Math.max(...ends), source: device.source };
}
