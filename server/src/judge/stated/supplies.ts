// Supply and ground pins that nobody has put on a net: the device says which they are, and where only one rail of the
// board can feed such a pin, that is the one.

import { pinKey } from "../../knowledge/board-index";
import type { Library } from "../../knowledge/library";
import type { Device, DevicePin, Family, Net, Part, PinRef, Rail } from "../../knowledge/types";
import { supplyWindow } from "../supply-window";
import { siValue } from "../uncertainty";

/** What stands on the rail by being fed from it; a regulator's or an amplifier's supply is what the board makes it. */
const FED = new Set<Device["kind"]>(["logic", "memory", "processor", "interface"]);

/** A supply or ground pin with the net that it has to be on. */
export interface SupplyPin extends PinRef {
  readonly net: string;
}

export interface Supplied {
  readonly parts: Iterable<Pick<Part, "ref" | "device">>;
  readonly rails: Iterable<Pick<Rail, "nominal" | "net">>;
  readonly grounds: readonly string[];
}

/** The supply and ground pins of all parts whose net follows, whether or not they are on one. */
export function supplyPins({ parts, rails, grounds }: Supplied, library: Library): SupplyPin[] {
  const found: SupplyPin[] = [];
  const add = (net: string | undefined, ref: string, pin: string) => {
    if (net !== undefined) found.push({ net, ref, pin });
  };
  const fed = [...rails].flatMap((rail) => {
    const volts = siValue(rail.nominal, "V");
    return volts === undefined ? [] : [{ rail, volts }];
  });
  for (const { ref, device: number } of parts) {
    const match = number === undefined ? undefined : library.device(number);
    if (!match || !FED.has(match.device.kind)) continue;
    for (const pin of match.device.pins.values()) {
      if (pin.direction === "ground") add(grounds[0], ref, pin.number);
      if (pin.direction === "supply")
        add(netOf(railOf(pin, match.device, match.family, fed)), ref, pin.number);
    }
  }
  return found;
}

/** The same nets with the pins that follow and are on none; the very same where none does. */
export function joinSupplies(
  nets: ReadonlyMap<string, Net>,
  supplies: readonly SupplyPin[],
): ReadonlyMap<string, Net> {
  const taken = new Set<string>();
  for (const { pins } of nets.values()) for (const { ref, pin } of pins) taken.add(pinKey(ref, pin));
  const added = new Map<string, PinRef[]>();
  for (const { net, ref, pin } of supplies) {
    if (taken.has(pinKey(ref, pin))) continue;
    const pins = added.get(net);
    if (pins) pins.push({ ref, pin });
    else added.set(net, [{ ref, pin }]);
  }
  if (added.size === 0) return nets;
  const all = new Map(nets);
  for (const [name, pins] of added) all.set(name, { name, pins: [...(nets.get(name)?.pins ?? []), ...pins] });
  return all;
}

const netOf = (rail: Pick<Rail, "net"> | undefined): string | undefined => rail?.net;

/** Undefined where none of the rails, or more than one of them, can feed the pin. */
function railOf(
  pin: DevicePin,
  device: Device,
  family: Family | undefined,
  rails: readonly { readonly rail: Pick<Rail, "net">; readonly volts: number }[],
): Pick<Rail, "net"> | undefined {
  const window = supplyWindow(pin, device, family);
  const fits = window ? rails.filter(({ volts }) => window.low <= volts && volts <= window.high) : [];
  return fits.length === 1 ? fits[0]?.rail : undefined;
}
