// Supply and ground pins that nobody has put on a net: the device says which they are, and where only one rail of the
// board can feed such a pin, that is the one.

import { pinKey } from "../../knowledge/board-index";
import type { Library } from "../../knowledge/library";
import type { Board, Device, DevicePin, Family, Net, PinRef, Rail } from "../../knowledge/types";
import { supplyWindow } from "../supply-window";
import { siValue } from "../uncertainty";

/** What stands on the rail by being fed from it; a regulator's or an amplifier's supply is what the board makes it. */
const FED = new Set<Device["kind"]>(["logic", "memory", "processor", "interface"]);

/** The same nets with the pins that follow; the very same where none does. */
export function joinSupplies(
  { parts, rails, nets, grounds }: Pick<Board, "parts" | "rails" | "nets" | "grounds">,
  library: Library,
): ReadonlyMap<string, Net> {
  const taken = new Set<string>();
  for (const { pins } of nets.values()) for (const { ref, pin } of pins) taken.add(pinKey(ref, pin));
  const added = new Map<string, PinRef[]>();
  const add = (net: string | undefined, ref: string, pin: string) => {
    if (net === undefined || taken.has(pinKey(ref, pin))) return;
    added.set(net, [...(added.get(net) ?? []), { ref, pin }]);
  };
  const fed = [...rails.values()].flatMap((rail) => {
    const volts = siValue(rail.nominal, "V");
    return volts === undefined ? [] : [{ rail, volts }];
  });
  for (const { ref, device: number } of parts.values()) {
    const found = number === undefined ? undefined : library.device(number);
    if (!found || !FED.has(found.device.kind)) continue;
    for (const pin of found.device.pins.values()) {
      if (pin.direction === "ground") add(grounds[0], ref, pin.number);
      if (pin.direction === "supply")
        add(netOf(railOf(pin, found.device, found.family, fed)), ref, pin.number);
    }
  }
  if (added.size === 0) return nets;
  const all = new Map(nets);
  for (const [name, pins] of added) all.set(name, { name, pins: [...(nets.get(name)?.pins ?? []), ...pins] });
  return all;
}

const netOf = (rail: Rail | undefined): string | undefined => rail?.net;

/** Undefined where none of the rails, or more than one of them, can feed the pin. */
function railOf(
  pin: DevicePin,
  device: Device,
  family: Family | undefined,
  rails: readonly { readonly rail: Rail; readonly volts: number }[],
): Rail | undefined {
  const window = supplyWindow(pin, device, family);
  const fits = window ? rails.filter(({ volts }) => window.low <= volts && volts <= window.high) : [];
  return fits.length === 1 ? fits[0]?.rail : undefined;
}
