// Which nets are rails and grounds: guessed from their names and from the pins on them, and always said to be a guess.
import { quantityOf } from "../quantity-rule";
import type { Device, DevicePin } from "../types";
import type { CombinedNet } from "./combine";
import { isGroundName, isSupplyName, lastName, voltageNamed } from "./net-name";

export interface GuessedRail {
  readonly name: string;
  readonly net: string;
  /** As a board file has it: "5 V". */
  readonly nominal: string;
  readonly tolerance: string;
  /** "its name", "the supply pins of U1, U2". */
  readonly why: string;
  /** Only the pins say so, or only a habit of naming: not to be believed without a look. */
  readonly weak: boolean;
}

export interface GuessedGround {
  readonly net: string;
  readonly why: string;
  readonly weak: boolean;
}

export interface Supplies {
  readonly rails: readonly GuessedRail[];
  readonly grounds: readonly GuessedGround[];
  /** Nets named like a supply whose voltage nothing tells. */
  readonly unknown: readonly string[];
}

/** The device behind a designator with its library's supply window, where there is one. */
export interface KnownDevice {
  readonly device: Device;
  readonly supply?: readonly [low: string, high: string];
}

/** As many pins have to agree where the name says nothing. */
const SEVERAL = 2;

export function importedSupplies(
  nets: readonly CombinedNet[],
  deviceAt: (ref: string) => KnownDevice | undefined,
): Supplies {
  const rails: GuessedRail[] = [];
  const grounds: GuessedGround[] = [];
  const unknown: string[] = [];
  const taken = new Set<string>();
  const free = (name: string, net: string): string => {
    const chosen = taken.has(name) ? net : name;
    taken.add(chosen);
    return chosen;
  };
  for (const net of nets) {
    if (net.pins.length === 0) continue;
    const pins = supplyPins(net, deviceAt);
    const ground = groundOf(net.name, pins);
    if (ground) {
      grounds.push(ground);
      continue;
    }
    const named = voltageNamed(net.name);
    if (named) {
      const { nominal, unregulated } = named;
      rails.push({
        name: free(named.name, net.name),
        net: net.name,
        nominal: volts(nominal),
        tolerance: unregulated ? "20 %" : nominal === 5 ? "5 %" : "10 %",
        why: "the net's name",
        weak: false,
      });
      continue;
    }
    const told = toldByPins(pins);
    const isNamed = isSupplyName(net.name);
    if (told && (isNamed || told.count >= SEVERAL)) {
      rails.push({
        name: free(
          isNamed ? lastName(net.name) : `${told.nominal < 0 ? "-" : "+"}${Math.abs(told.nominal)}V`,
          net.name,
        ),
        net: net.name,
        nominal: volts(told.nominal),
        tolerance: told.nominal === 5 ? "5 %" : "10 %",
        why: `${isNamed ? "the net's name and " : ""}${told.why}`,
        weak: !isNamed,
      });
    } else if (/^VCC$/i.test(lastName(net.name))) {
      const why = "a habit of naming: VCC is +5 V on boards of TTL";
      rails.push({
        name: free(lastName(net.name), net.name),
        net: net.name,
        nominal: "5 V",
        tolerance: "5 %",
        why,
        weak: true,
      });
    } else if (isNamed) unknown.push(net.name);
  }
  // Where a ground is named as one, the others are more likely negative supplies.
  const named = grounds.filter(({ weak }) => !weak);
  return { rails, grounds: named.length > 0 ? named : grounds, unknown };
}

const volts = (value: number): string => `${value} V`;

interface SupplyPin {
  readonly ref: string;
  readonly pin: DevicePin;
  readonly known: KnownDevice;
}

function supplyPins(net: CombinedNet, deviceAt: (ref: string) => KnownDevice | undefined): SupplyPin[] {
  return net.pins.flatMap(({ ref, pin }) => {
    const known = deviceAt(ref);
    const found = known?.device.pins.get(pin);
    return known && found ? [{ ref, pin: found, known }] : [];
  });
}

function groundOf(net: string, pins: readonly SupplyPin[]): GuessedGround | undefined {
  const grounded = pins.filter(({ pin }) => pin.direction === "ground");
  // On a board of P-channel parts VSS is the positive supply; what hangs on it tells.
  const fed = pins.filter(({ pin }) => pin.direction === "supply" && !/^V(?:EE|BB|-)$/.test(pin.name));
  if (isGroundName(net)) {
    if (/^VSS/i.test(lastName(net)) && fed.length > grounded.length) return undefined;
    return { net, why: "the net's name", weak: false };
  }
  if (grounded.length < SEVERAL || fed.length > 0 || voltageNamed(net) || isSupplyName(net)) return undefined;
  return { net, why: `the ground pins of ${refsIn(grounded)}`, weak: true };
}

interface Told {
  readonly nominal: number;
  readonly why: string;
  readonly count: number;
}

/** The voltage that the supply pins of 5 V parts or the output of a fixed regulator tell; none where they disagree. */
function toldByPins(pins: readonly SupplyPin[]): Told | undefined {
  const regulators = pins.filter(
    ({ pin, known }) => pin.name === "OUT" && outputOf(known.device) !== undefined,
  );
  const fiveVolts = pins.filter(isFiveVoltPin);
  const [regulator] = regulators;
  if (
    regulator &&
    regulators.every(({ known }) => outputOf(known.device) === outputOf(regulator.known.device))
  ) {
    const nominal = outputOf(regulator.known.device)!;
    if (fiveVolts.length > 0 && nominal !== 5) return undefined;
    return { nominal, why: `the output of ${refsIn(regulators)}`, count: SEVERAL };
  }
  if (regulators.length > 0 || fiveVolts.length === 0) return undefined;
  return {
    nominal: 5,
    why: `the supply pins of ${refsIn(fiveVolts)}, which are 5 V parts`,
    count: fiveVolts.length,
  };
}

/** Middle of a regulator's output window, in volts, to the tenth. */
function outputOf({ kind, limits }: Device): number | undefined {
  const [low, high] = limits.get("output") ?? [];
  if (kind !== "regulator" || low === undefined || high === undefined) return undefined;
  const middle = ((quantityOf(low)?.value ?? 0) + (quantityOf(high)?.value ?? 0)) / 2;
  return middle === 0 ? undefined : Math.round(middle * 10) / 10;
}

/** VCC of a part of one supply near 5 V; parts with several have their own for each. */
function isFiveVoltPin({ pin, known: { device, supply } }: SupplyPin): boolean {
  if (pin.direction !== "supply" || !supply) return false;
  const names = [...device.pins.values()]
    .filter(({ direction }) => direction === "supply")
    .map(({ name }) => name);
  if (pin.name !== "VCC" && (pin.name !== "VDD" || names.includes("VCC"))) return false;
  const [low, high] = supply.map((text) => quantityOf(text)?.value ?? 0);
  return low! >= 4 && high! <= 6;
}

/** "U1, U2, U3 and 9 others". */
function refsIn(pins: readonly SupplyPin[]): string {
  const refs = [...new Set(pins.map(({ ref }) => ref))];
  return refs.length <= 4 ? refs.join(", ") : `${refs.slice(0, 3).join(", ")} and ${refs.length - 3} others`;
}
