// The voltages that a supply pin is made for: its own where a part takes several, the device's, the family's.
import type { Device, DevicePin, Family } from "../knowledge/types";
import { siValue } from "./uncertainty";

export interface SupplyWindow {
  /** Volts; below zero for a negative supply. */
  readonly low: number;
  readonly high: number;
  readonly source: string;
}

const SEVERAL_SOURCE = "4116, 2708 and 8080 data sheets, from memory";
/** Supplies of MOS parts that take three, by the letters of the pin. */
const SEVERAL: Readonly<Record<string, readonly [low: number, high: number]>> = {
  VBB: [-5.5, -4.5],
  VDD: [10.8, 13.2],
  VCC: [4.75, 5.25],
};

/** Undefined where nothing is known, or the part takes several supplies and the pin's letters do not say which. */
export function supplyWindow(
  { name }: Pick<DevicePin, "name">,
  device: Device,
  family: Family | undefined,
): SupplyWindow | undefined {
  const names = new Set(
    [...device.pins.values()].flatMap((pin) => (pin.direction === "supply" ? [pin.name] : [])),
  );
  if (names.size > 1) {
    const window = names.has("VBB") ? SEVERAL[name.toUpperCase()] : undefined;
    return window && { low: window[0], high: window[1], source: SEVERAL_SOURCE };
  }
  const own = device.limits.get("supply");
  const typed = own ?? family?.supply;
  const low = typed && siValue(typed[0], "V");
  const high = typed && siValue(typed[1], "V");
  if (low === undefined || high === undefined) return undefined;
  return { low, high, source: own ? device.source : (family?.source ?? device.source) };
}

/** What a fixed regulator is made to give; undefined for what is none. */
export function outputWindow({ kind, limits, source }: Device): SupplyWindow | undefined {
  const ends = kind === "regulator" ? limits.get("output")?.map((end) => siValue(end, "V")) : undefined;
  const [low, high] = ends ?? [];
  if (low === undefined || high === undefined) return undefined;
  return { low: Math.min(low, high), high: Math.max(low, high), source };
}
