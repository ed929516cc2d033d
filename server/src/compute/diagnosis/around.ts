// What a part does at a pin: whether it drives the node there, and what else of it is joined to that.
import { memo } from "../../base/memo";
import type { Net, TruthTable } from "../../knowledge/types";
import type { BoardModel, PartModel } from "./board-model";
import type { WrongState } from "./strength";

export type Role =
  | "drives"
  | "may-drive"
  | "takes"
  | "ground"
  | "supply"
  | "base"
  | "collector"
  | "emitter"
  | "lead";

/** A pin of a part with the net that it is on. */
export interface PinAt {
  readonly pin: string;
  readonly net: Net;
}

const TRANSISTOR_PINS: ReadonlyMap<string, Role> = new Map<string, Role>([
  ["B", "base"],
  ["G", "base"],
  ["C", "collector"],
  ["D", "collector"],
  ["E", "emitter"],
  ["S", "emitter"],
]);

/** Of an optocoupler the diode is what a base is to a transistor. */
const COUPLER_PINS: ReadonlyMap<string, Role> = new Map<string, Role>([
  ["A", "base"],
  ["C", "collector"],
  ["E", "emitter"],
]);

/** "lead" for parts of two leads and networks, and where the library does not know the pin. */
export function pinRoleOf({ kind, device }: PartModel, pin: string): Role {
  const known = device?.pins.get(pin);
  if (!device || !known) return "lead";
  if (kind === "transistor") return TRANSISTOR_PINS.get(known.name.toUpperCase()) ?? "lead";
  if (known.direction === "passive" && device.families.includes("optocoupler"))
    return COUPLER_PINS.get(known.name.replace(/^\d/, "").toUpperCase()) ?? "lead";
  switch (known.direction) {
    case "output":
    case "open-collector":
    case "open-emitter":
      return "drives";
    case "three-state":
    case "bidirectional":
      return "may-drive";
    case "input":
      return "takes";
    case "ground":
      return "ground";
    case "supply":
      return "supply";
    default:
      return "lead";
  }
}

/** Drives the node there: by its kind of pin, or a three-state output that nothing else on the node could stand in for. */
export function drivesAt(
  partAt: (ref: string) => PartModel | undefined,
  net: Net,
  part: PartModel,
  pin: string,
): boolean {
  const role = pinRoleOf(part, pin);
  if (role !== "may-drive" || part.device?.pins.get(pin)?.direction !== "three-state")
    return role === "drives";
  return net.pins.every((other) => {
    const one = partAt(other.ref);
    return !one || one === part || !["drives", "may-drive", "collector"].includes(pinRoleOf(one, other.pin));
  });
}

/** Conducts with its base low. */
export const isPnp = ({ device }: PartModel): boolean =>
  (device?.families ?? []).some((family) => /^(?:pnp|p-mosfet)/i.test(family));

/** The numbers of a part's ground and supply pins by its device; none where the device is not known. */
export const powerPins = (
  part: PartModel,
): { readonly ground: readonly string[]; readonly supply: readonly string[] } => {
  const pins = [...(part.device?.pins.values() ?? [])];
  return {
    ground: pins.flatMap(({ number, direction }) => (direction === "ground" ? number : [])),
    supply: pins.flatMap(({ number, direction }) => (direction === "supply" ? number : [])),
  };
};

/** The other ends of a part of two leads, or of the element of a network that ends at the pin. */
export function otherEnds(part: PartModel, pin: string): readonly PinAt[] {
  const others = part.pins.filter((one) => one.pin !== pin);
  if (others.length < 2) return others;
  if (part.kind === "resistor-network") {
    const common = part.pins.find((one) => one.pin === "1");
    const all = dipPins(`${part.part.package ?? ""} ${part.part.value ?? ""}`);
    if (all !== undefined) {
      const across = String((all || part.pins.length) + 1 - Number(pin));
      return others.filter((one) => one.pin === across);
    }
    return pin === "1" ? [] : common ? [common] : [];
  }
  // A bridge, a relay, a switch bank: all of it hangs together as far as anybody says here.
  return part.kind === "diode" || others.length < 4 ? others : [];
}

/** Pins of the dual in-line package that these words name, zero where they do not say how many; undefined for another package. */
export const dipPins = (words: string): number | undefined => {
  const named = /DIP(?:\s*-?\s*(\d+))?/i.exec(words);
  return named ? Number(named[1] ?? 0) : undefined;
};

const CLOCK =
  /^[/~]?\d?(?:CLK|CK|CP|CLOCK)|^[/~]?(?:XTAL|EXTAL|X[12T]|XI|PHI|Φ|Ø|E$|CKA|CKB|A$|B$|GATE|LE$|G$|C$)/i;
const EDGE = /^[/~]?\d?(?:CLK|CK|CP|CLOCK)/i;
const CLOCK_OUT = /^[/~]?(?:E|Q|CLK\w*|CLKOUT|PHI\w*|OSC\w*|TTL|ALE|SYNC)$/i;
const RESET = /^[/~]?\d?(?:RES|RST|RESET|CLR|CLEAR|MR$|R0|HALT|HOLD|READY|WAIT)/i;

/** An input without which a section does nothing. */
export type Need = PinAt & { readonly state: WrongState; readonly timing?: boolean };

/** Pins at which a resistor and a capacitor set a time. */
const TIMING = /^\d?(?:RC|R\/?CEXT|REXT|CEXT|RX|CX|RX\/CX|RXCX|R_?C_?X|THR\w*|TRIG\w*|DIS\w*|CONT|CV|TC)$/i;

/** Inputs without which a section does nothing, with what they would wrongly stand at. */
export function needs(part: PartModel, pin: string, state: WrongState): readonly Need[] {
  const { device } = part;
  if (!device) return [];
  const at = (pins: readonly string[], wanted: WrongState) =>
    pins.flatMap((number) => {
      const own = part.pins.find((one) => one.pin === number);
      return own ? [{ ...own, state: wanted }] : [];
    });
  const { unit, name: own = "" } = device.pins.get(pin) ?? {};
  const timing = [...device.pins.values()].flatMap(({ number, name, unit: other }): readonly Need[] =>
    TIMING.test(name) && (unit === undefined || other === undefined || unit === other)
      ? at([number], "steady").map((one) => ({ ...one, timing: true }))
      : [],
  );
  const gate = device.gates.find(({ outputs }) => outputs.includes(pin));
  if (gate) return at(gate.inputs, inverts(gate.function) ? opposite(state) : state);
  const table = device.truthTables.find(({ outputs }) => outputs.includes(pin));
  // What a table of a flip-flop does not hold is the clock by which it follows its data.
  const edges = [...device.pins.values()].flatMap(({ number, name, direction, unit: other }) =>
    table && direction === "input" && EDGE.test(name) && !table.inputs.includes(number) && unit === other
      ? at([number], "steady")
      : [],
  );
  if (table) return [...at(inputsFor(table).get(pin) ?? table.inputs, "steady"), ...edges, ...timing];
  // A clock that a chip puts out runs while the rest of it is reset or waits.
  const ticks = CLOCK_OUT.test(own);
  const clocks = [...device.pins.values()].flatMap(({ number, name, direction, unit: other }) => {
    if (direction !== "input" && !(direction === "passive" && CLOCK.test(name))) return [];
    if (unit !== undefined && other !== undefined && unit !== other) return [];
    if (RESET.test(name) && ticks) return [];
    if (RESET.test(name)) return at([number], /^[/~]|_N$|\bN$/.test(name) ? "low" : "high");
    return CLOCK.test(timing.length > 0 ? name.replace(/^\d(?=[AB]$)/, "") : name)
      ? at([number], "steady")
      : [];
  });
  return [...clocks, ...timing];
}

/**
 * By output the inputs that have a say in it: those at a level that a row asks for, those whose letter the output shows, and those
 * that rows hold against each other. The data of the other bits of a latch have none.
 */
const inputsFor = memo(({ inputs, outputs, rows }: TruthTable): ReadonlyMap<string, readonly string[]> => {
  const bears = (input: number, output: number): boolean =>
    rows.some((row) => {
      const [own, shown] = [row.inputs[input], row.outputs[output]];
      if (own?.kind !== "value") return false;
      if (own.letters === 0 || (shown?.kind === "value" && (shown.letters & own.letters) !== 0)) return true;
      return row.inputs.some(
        (one, i) => i !== input && one.kind === "value" && (one.letters & own.letters) !== 0,
      );
    });
  return new Map(outputs.map((output, o) => [output, inputs.filter((_, i) => bears(i, o))]));
});

const inverts = (name: string): boolean => /^(?:NOT|INV|NAND|NOR|XNOR)/i.test(name);

/** Low for high and high for low; any other state has no opposite and stays what it is. */
export const opposite = (state: WrongState): WrongState =>
  state === "low" ? "high" : state === "high" ? "low" : state;

/** Whether the inside of the part between its inputs and this pin is described. */
export const isDescribed = ({ device }: PartModel, pin: string): boolean =>
  device !== undefined &&
  (device.gates.some(({ outputs }) => outputs.includes(pin)) ||
    device.truthTables.some(({ outputs }) => outputs.includes(pin)));

/** Ground, a rail, or neither. */
export function tiedTo(model: BoardModel, net: Net): "ground" | "rail" | undefined {
  return model.isGround(net) ? "ground" : model.isSupply(net) ? "rail" : undefined;
}
