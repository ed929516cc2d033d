// What a chip of a family draws from its supply, roughly: enough to tell a rail that feeds nothing from one that does.
import type { DeviceKind } from "../../knowledge/types";

export interface Draws {
  /** Amperes. */
  readonly least: number;
  readonly most: number;
}

/** Milliamperes of one package, the smallest and the largest usual: data books of the families, from memory. */
const MILLIAMPS: Readonly<Record<string, readonly [least: number, most: number]>> = {
  ttl: [6, 90],
  ls: [1.5, 40],
  s: [15, 150],
  als: [1, 30],
  f: [4, 80],
  hc: [0, 10],
  hct: [0, 10],
  "4000": [0, 10],
  cmos: [0, 30],
  nmos: [20, 200],
  pmos: [5, 60],
  bipolar: [40, 180],
};

const FED: ReadonlySet<DeviceKind> = new Set(["logic", "memory", "processor", "interface"]);

/** Undefined for parts whose draw the circuit makes: drivers' loads, regulators, discretes. */
export function supplyCurrentOf(kind: DeviceKind, family: string | undefined): Draws | undefined {
  const [least, most] = (FED.has(kind) && family !== undefined && MILLIAMPS[family.toLowerCase()]) || [];
  return least === undefined || most === undefined ? undefined : { least: least / 1000, most: most / 1000 };
}
