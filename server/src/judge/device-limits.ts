// A device's windows as numbers, read once for a device.
import { memo } from "../base/memo";
import type { Device } from "../knowledge/types";
import { siValue } from "./uncertainty";

export type Limits = readonly [low: number, high: number];

const limitsOf = memo(
  (device: Device): ReadonlyMap<string, Limits> =>
    new Map(
      [...device.limits].flatMap(([name, [from, to]]): [string, Limits][] => {
        const low = siValue(from, "V");
        const high = siValue(to, "V");
        return low === undefined || high === undefined ? [] : [[name, [low, high]]];
      }),
    ),
);

/** Volts, by the limit's name: "supply", "off-state", or the pin it is of. */
export const limitOf = (device: Device, name: string): Limits | undefined => limitsOf(device).get(name);
