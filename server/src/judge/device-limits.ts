// A device's windows as numbers, read once for a device.
import { memo } from "../base/memo";
import type { Device } from "../knowledge/types";
import { siValue } from "./uncertainty";

export type LimitPair = readonly [low: number, high: number];

const limitsOf = memo(
  (device: Device): ReadonlyMap<string, LimitPair> =>
    new Map(
      [...device.limits].flatMap(([name, [from, to]]): [string, LimitPair][] => {
        const low = siValue(from, "V");
        const high = siValue(to, "V");
        return low === undefined || high === undefined ? [] : [[name, [low, high]]];
      }),
    ),
);

/** Volts, by the limit's name: "supply", "off-state", or the pin it is of. */
export const deviceLimit = (device: Device, name: string): LimitPair | undefined =>
  limitsOf(device).get(name);
