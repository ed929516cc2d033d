// What a pin's standing voltage means, by its device and its name.
import type { Device, DevicePin, PinSignal } from "../knowledge/types";

/** A crystal's pins swing about the middle of the supply while it runs. */
const CRYSTAL = /^\/?(?:E?XTAL\d?|X[12]|XIN|XOUT|OSC(?:[12]|IN|OUT|_IN)?)$/i;
/** Lines that never stand still while a board runs. */
const CLOCK = /^\/?(?:(?:[A-Z]{0,3})CLK\w*|CLOCK|PHI\w*|ALE|E|Q|RAS|CAS|SYNC|STSTB)$/i;

export function signalOf(device: Device, pin: DevicePin): PinSignal {
  if (pin.signal) return pin.signal;
  if (device.kind === "analog") {
    const isDigital = pin.direction === "three-state" || pin.direction === "open-collector";
    return isDigital ? "logic" : "analogue";
  }
  const isMade = device.kind === "processor" || device.kind === "interface";
  return isMade && CRYSTAL.test(pin.name) ? "oscillator" : "logic";
}

/** True for a pin of a processor, a memory or their like that carries a clock: on a meter it shows an average. */
export const isClock = ({ kind }: Device, { name }: DevicePin): boolean =>
  (kind === "processor" || kind === "interface" || kind === "memory") && CLOCK.test(name);
